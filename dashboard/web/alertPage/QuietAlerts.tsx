import { Chip } from "../parts/Chip.tsx";
import { alertText } from "../words/alertText.ts";
import { alertPage as words } from "../words/en/alerts.ts";
import type { Format } from "../../alerts/format.ts";
import { Story } from "./AlertEntry.tsx";
import type { Alerts, Listed } from "./listed.ts";

type QuietProps<T> = { alerts: T; nowMs: number; formatOf: (listed: Listed) => Format };

const tones = { actNow: "act", plan: "plan", note: "fine" } as const;

/** What is silenced by design or switched off, folded away, each with the reason. */
export function SilencedAlerts({ alerts, nowMs, formatOf }: QuietProps<Alerts["silenced"]>) {
  if (alerts.length === 0) return null;
  return (
    <details class="sheet">
      <summary>{words.silenced(alerts.length)}</summary>
      {alerts.map((listed) => {
        const { alert, booth, boothName } = listed;
        const why = alert.state === "outOfService" ? "switchedOff" : (alert.suppressedBy ?? "switchedOff");
        return (
          <div key={alert.alertId} class="past">
            <span class="small">{formatOf(listed).clock(alert.sinceAtMs)}</span>
            <div>
              <b>{booth === null ? boothName : alertText(alert, booth, nowMs, formatOf(listed)).headline}</b>
              <p class="small">{words.why[why]}</p>
            </div>
          </div>
        );
      })}
    </details>
  );
}

/** What is closed: one line each, with its story. */
export function ClosedAlerts({ alerts, nowMs, formatOf }: QuietProps<Alerts["closed"]>) {
  if (alerts.length === 0) return null;
  return (
    <section class="sheet">
      <h2>{words.closed}</h2>
      {alerts.map((listed) => {
        const { alert, booth, boothName, closedAtMs } = listed;
        const format = formatOf(listed);
        const length = format.minutes(closedAtMs - alert.sinceAtMs);
        return (
          <div key={alert.alertId} class="past">
            <span class="small">{format.clock(closedAtMs)}</span>
            <div>
              <Chip tone={tones[alert.severity]} word={words.severity[alert.severity]} /> <b>{boothName}</b>
              <p>
                {booth !== null && `${alertText(alert, booth, nowMs, format).headline} `}
                {words.closedLine(length, alert.taken?.by ?? null)}
              </p>
              <Story listed={listed} format={format} />
            </div>
          </div>
        );
      })}
    </section>
  );
}
