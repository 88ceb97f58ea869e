import { useEffect, useState } from "preact/hooks";
import { AlertEntry } from "../alertPage/AlertEntry.tsx";
import { alertsVerdict } from "../alertPage/alertsVerdict.ts";
import { listAlerts, storyKey } from "../alertPage/listed.ts";
import type { Listed } from "../alertPage/listed.ts";
import { ClosedAlerts, SilencedAlerts } from "../alertPage/QuietAlerts.tsx";
import { FormRefusal } from "../parts/Field.tsx";
import { Frame, Mark } from "../parts/Frame.tsx";
import { Icon } from "../parts/Icon.tsx";
import { TestMe } from "../reach/TestMe.tsx";
import { alertList } from "../state/alertShapes.ts";
import {
  booths,
  commonZone,
  formatOf,
  heardAtMs,
  isCutOff,
  me,
  nowMs,
  slowMs,
  units,
} from "../state/signals.ts";
import { useAnswer } from "../state/useAnswer.ts";
import { alertPage as words } from "../words/en/alerts.ts";
import { tabs } from "../words/en/frame.ts";
import { formatIn } from "../../alerts/format.ts";
import "../styles/alerts.css";

const dayMs = 24 * 3_600_000;

/** All alerts: the verdict, what is open by urgency, what is silenced, what is closed, and a test of the ways out. */
export function Alerts() {
  const [fromMs] = useState(() => Math.max(0, nowMs.value - dayMs));
  const { answer, refusal, again } = useAnswer(`/api/alerts?from=${Math.round(fromMs)}`, alertList);
  const minute = Math.floor(nowMs.value / 60_000);
  const key = storyKey(booths.value);
  useEffect(() => {
    if (answer !== null) void again();
  }, [key, minute]);

  const isAsked = heardAtMs.value !== null;
  const now = slowMs.value;
  const alerts = listAlerts(booths.value, answer?.alerts ?? []);
  const of = ({ booth }: Listed) => formatOf(booth);
  const verdict = isCutOff.value
    ? {
        headline: words.cutOff(formatOf(null).minutes(nowMs.value - (heardAtMs.value ?? 0))),
        more: words.cutOffMore,
      }
    : alertsVerdict(alerts, now, of);
  return (
    <Frame title={words.title} bar={<Bar />}>
      <div class="verdict">
        <h1 tabIndex={-1}>{isAsked ? verdict.headline : words.asking}</h1>
        {isAsked && verdict.more !== "" && <p>{verdict.more}</p>}
      </div>
      <div class="cols">
        <div>
          {[...alerts.open, ...alerts.untaken].map((listed) => (
            <AlertEntry
              key={listed.alert.alertId}
              listed={listed}
              nowMs={now}
              format={of(listed)}
              isOld={isCutOff.value}
            />
          ))}
          <SilencedAlerts alerts={alerts.silenced} nowMs={now} formatOf={of} />
        </div>
        <div>
          {!isCutOff.value && <FormRefusal refusal={refusal} shown={[]} />}
          <ClosedAlerts alerts={alerts.closed} nowMs={now} formatOf={of} />
          <TestMe />
        </div>
      </div>
    </Frame>
  );
}

function Bar() {
  const format = formatIn(commonZone.value, units.value);
  return (
    <>
      {me.value.role === "owner" ? (
        <Mark />
      ) : (
        <a class="back" href="/">
          <Icon name="back" />
          {tabs.today}
        </a>
      )}
      <span>
        {format.day(slowMs.value)} · <b>{format.clock(nowMs.value)}</b>
      </span>
    </>
  );
}
