import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import { heatHeading, sessionsHeading } from "../words/boothWords.ts";
import { heat, sessions } from "../words/en/booth.ts";
import type { Format } from "../../alerts/format.ts";
import { heatAheadNow } from "../state/heatAheadNow.ts";
import { later } from "./later.tsx";

const Waiting = () => <div class="picture-waiting" />;
const HeatCurve = later(() => import("../charts/charts.ts").then((file) => file.HeatCurve), Waiting);
const SessionBars = later(() => import("../charts/charts.ts").then((file) => file.SessionBars), Waiting);
const HeatAhead = later(
  () => import("../desk/desk.ts").then((file) => file.HeatAhead),
  () => <p>{"\u00a0"}</p>,
);
const WaitingTable = () => <div class="table-waiting" />;
const HeatTable = later(() => import("../desk/desk.ts").then((file) => file.HeatTable), WaitingTable);
const SessionTable = later(() => import("../desk/desk.ts").then((file) => file.SessionTable), WaitingTable);

const shownMs = 2 * 3_600_000;

type ChartsProps = {
  booth: BoothView;
  evening: BoothEvening | null;
  nowMs: number;
  /** Nobody hears the booth: no look ahead is shown. */
  isOld: boolean;
  format: Format;
};

/** Temperature and sessions of a booth as pictures; Chart.js is fetched when they are first shown. */
export function BoothCharts({ booth, evening, nowMs, isOld, format }: ChartsProps) {
  const minuteAtMs = Math.floor(nowMs / 60_000) * 60_000;
  const inside = (evening?.inside ?? []).filter((point) => point.atMs >= minuteAtMs - shownMs);
  const quarters = fromFirstSession(evening?.quarters ?? [], booth.booking?.openAtMs ?? Infinity);
  const heatSentence = heatHeading(booth, nowMs, format);
  const ahead = isOld ? [] : heatAheadNow(booth, nowMs);
  const heatCap = ahead.length === 0 ? heat.cap : heat.capAhead;
  const sessionSentence = sessionsHeading(booth, quarters, format);
  return (
    <div class="pair">
      <section class="sheet">
        <h2>{heatSentence}</h2>
        {!isOld && booth.outlook.heat.length > 0 && <HeatAhead booth={booth} nowMs={nowMs} format={format} />}
        {inside.length > 1 ? (
          <>
            <HeatCurve
              inside={inside}
              fan={ahead[0]?.fan ?? []}
              fromAtMs={minuteAtMs - shownMs}
              nowMs={minuteAtMs}
              limitC={booth.limitC}
              format={format}
              label={`${heatCap} ${heatSentence}`}
            />
            <p class="cap">{heatCap}</p>
            <HeatTable inside={inside} ahead={ahead} format={format} />
          </>
        ) : (
          booth.inside !== null && <p class="cap">{heat.tooFew}</p>
        )}
      </section>
      <section class="sheet">
        <h2>{sessionSentence}</h2>
        {quarters.length > 0 && (
          <>
            <SessionBars quarters={quarters} format={format} label={`${sessions.cap} ${sessionSentence}`} />
            <p class="cap">{sessions.cap}</p>
            <SessionTable quarters={quarters} format={format} />
          </>
        )}
      </section>
    </div>
  );
}

const quarterMs = 15 * 60_000;

/** Without the empty quarter-hours before the opening. */
function fromFirstSession(quarters: BoothEvening["quarters"], openAtMs: number): BoothEvening["quarters"] {
  const first = quarters.findIndex((quarter) => quarter.sessions > 0 || quarter.atMs + quarterMs > openAtMs);
  return first === -1 ? [] : quarters.slice(first);
}
