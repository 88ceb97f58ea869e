import type { HeatReading } from "../../../dashboard/forecast/heat/heatSite.ts";

/** What anybody could say of the next hour from the readings alone. */
export const baselineNames = ["persistence", "trend 15 min", "trend 30 min", "damped trend"] as const;
export type BaselineName = (typeof baselineNames)[number];

const minuteMs = 60_000;
/** A trend that dies away: over so many minutes to 37 %. */
const dampingMin = 30;

/** What each says of the thermometer some minutes on; readings in order, all up to the ask. */
export function baselineAt(
  name: BaselineName,
  readings: readonly HeatReading[],
  atMs: number,
  minutes: number,
): number {
  // All are spared what is plainly no temperature.
  const good = readings.filter(({ insideC }) => insideC < 65);
  const last = good.at(-1)?.insideC ?? NaN;
  if (name === "persistence") return last;
  const slope = slopeOver(good, atMs, name === "trend 15 min" ? 15 : 30);
  if (name === "damped trend") return last + slope * dampingMin * (1 - Math.exp(-minutes / dampingMin));
  return last + slope * minutes;
}

/** C/min by least squares over the last minutes; 0 of fewer than two readings. */
function slopeOver(readings: readonly HeatReading[], atMs: number, minutes: number): number {
  const recent = readings.filter((reading) => reading.atMs >= atMs - minutes * minuteMs);
  if (recent.length < 2) return 0;
  const times = recent.map((reading) => (reading.atMs - atMs) / minuteMs);
  const middle = times.reduce((sum, time) => sum + time, 0) / times.length;
  const middleC = recent.reduce((sum, { insideC }) => sum + insideC, 0) / times.length;
  const across = times.reduce((sum, time, at) => sum + (time - middle) * (recent[at]!.insideC - middleC), 0);
  return across / times.reduce((sum, time) => sum + (time - middle) ** 2, 0);
}
