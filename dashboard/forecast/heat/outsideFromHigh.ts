import type { Place } from "../sun/sunPosition.ts";

/** Between a clear day's high and its low, C: common practice for a summer's day inland, no source. */
const usualRangeC = 10;

/**
 * How far below the day's high the air is at each hour of solar time from midnight on, in parts of the day's range.
 *
 * Source: the daily temperature profile of the ASHRAE Handbook, Fundamentals (from memory).
 */
const belowHigh = [
  0.82, 0.88, 0.92, 0.95, 0.98, 1, 0.98, 0.91, 0.74, 0.55, 0.38, 0.23, 0.13, 0.05, 0, 0, 0.06, 0.14, 0.24,
  0.39, 0.5, 0.59, 0.68, 0.75,
] as const;

const hourMs = 3_600_000;

/** The air outside on a day with an expected high, C, when nobody measures it; solar time by longitude. */
export function outsideFromHigh(highC: number, { longitudeDeg }: Place, atMs: number): number {
  const solarHour = (((atMs / hourMs + longitudeDeg / 15) % 24) + 24) % 24;
  const hour = Math.floor(solarHour) % 24;
  const [from, to] = [belowHigh[hour]!, belowHigh[(hour + 1) % 24]!];
  return highC - usualRangeC * (from + (to - from) * (solarHour - Math.floor(solarHour)));
}
