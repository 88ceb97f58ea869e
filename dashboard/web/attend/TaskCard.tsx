import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { Chip } from "../parts/Chip.tsx";
import { isAboutPaper } from "../answers/answering.ts";
import { alertText } from "../words/alertText.ts";
import { attend as words } from "../words/en/attend.ts";
import type { Format } from "../../alerts/format.ts";
import { EveningPart } from "./EveningPart.tsx";
import { countdownOf } from "./taskOf.ts";

type TaskProps = {
  booth: BoothView;
  alert: AlertView;
  nowMs: number;
  format: Format;
  /** Nobody hears the booth, or the page does not hear the dashboard: what stands here is of then. */
  asOfMs: number | null;
};

/** The one thing to do, how long is left for it, and why; on paper that ends, how. */
export function TaskCard({ booth, alert, nowMs, format, asOfMs }: TaskProps) {
  const { doNow, detail, chip } = alertText(alert, booth, nowMs, format);
  const isNow = alert.severity === "actNow";
  const look = asOfMs === null ? (isNow ? "act" : "plan") : "silent";
  return (
    <section class={`task ${look}`} aria-label={doNow}>
      <Chip tone={look} word={chip} />
      <h1 tabIndex={-1}>{doNow}</h1>
      {asOfMs === null ? (
        <Countdown alert={alert} nowMs={nowMs} format={format} />
      ) : (
        <p class="age">{words.asOf(format.clock(asOfMs))}</p>
      )}
      <p>{detail}</p>
      {isAboutPaper(alert) && (
        <>
          {!isNow && <EveningPart booth={booth} nowMs={nowMs} isOld={asOfMs !== null} format={format} />}
          <ol class="how" aria-label={words.steps}>
            {words.rollSteps[isNow ? "actNow" : "plan"].map((step, i) => (
              <li key={step}>
                <b>{i + 1}</b>
                <span>{step}</span>
              </li>
            ))}
          </ol>
        </>
      )}
    </section>
  );
}

function Countdown({ alert, nowMs, format }: Pick<TaskProps, "alert" | "nowMs" | "format">) {
  const countdown = countdownOf(alert, nowMs);
  if (countdown === null) return null;
  const { n, unit, is } = countdown;
  const at = format.clock(is === "stopped" ? alert.sinceAtMs : (alert.byAtMs ?? alert.sinceAtMs));
  return (
    <p class="count">
      <b>
        {format.count(n)}
        <i>{` ${words.units[unit]}`}</i>
      </b>
      <span>{words.count[is](at)}</span>
    </p>
  );
}
