import type { Waits } from "@boothward/shared-types";
import type { BookedTime } from "../../booth/bookingWindows.ts";
import type { BoothState } from "../../booth/boothState.ts";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { sheetsPerHourNow } from "../media/paperAhead.ts";
import { waitsNow } from "./waits.ts";

/**
 * How long a group that comes now waits; null while the booth cannot print, since nobody knows for how long, and
 * outside the open hours.
 */
export function waitsOf(
  state: Pick<BoothState, "printing" | "readings">,
  { openAtMs, closeAtMs }: BookedTime,
  ahead: DemandAhead,
): Waits | null {
  const { atMs } = ahead;
  const { stops } = state.printing;
  const isStopped = stops.some((stop) => stop.fromAtMs <= atMs && stop.toAtMs === null);
  if (isStopped || atMs < openAtMs || atMs >= closeAtMs) return null;
  const sheetsPerSession = Math.max(1, ahead.sheetsPerSession);
  return waitsNow({
    queuedJobs: queuedJobsNow(state),
    sheetsPerSession,
    sessionsPerHour: sheetsPerHourNow(ahead, openAtMs) / sheetsPerSession,
    sessionMs: null,
    lastStop: lastStopOf(stops, atMs),
  });
}

/** Jobs that wait at all printers; null where no printer says. */
function queuedJobsNow({ readings }: Pick<BoothState, "readings">): number | null {
  const said = readings.queues.map(({ queuedJobs }) => queuedJobs).filter((jobs) => jobs !== null);
  return said.length === 0 ? null : said.reduce((sum, jobs) => sum + jobs, 0);
}

function lastStopOf(stops: BoothState["printing"]["stops"], atMs: number) {
  const ended = stops.flatMap(({ fromAtMs, toAtMs }) => (toAtMs === null ? [] : [{ fromAtMs, toAtMs }]));
  const last = ended.reduce<(typeof ended)[number] | null>(
    (latest, stop) => (latest === null || stop.toAtMs > latest.toAtMs ? stop : latest),
    null,
  );
  return last === null
    ? null
    : { lengthMs: last.toAtMs - last.fromAtMs, endedAgoMs: Math.max(0, atMs - last.toAtMs) };
}
