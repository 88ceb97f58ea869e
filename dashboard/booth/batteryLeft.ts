import type { BoothState } from "./boothState.ts";
import type { BatteryPoint } from "./readings.ts";

/** How full the battery of a computer off the mains is, and how long it may last. */
export type BatteryLeft = {
  readonly batteryPct: number | null;
  /** When `batteryPct` was said. */
  readonly atMs: number;
  /** null: not seen to drain long enough to tell. */
  readonly minutesLeft: number | null;
};

const minuteMs = 60_000;

/** Two figures nearer than this differ by rounding more than by use. */
const leastApartMs = 4 * minuteMs;

/** A figure in whole percents has to fall by so much before its slope is one. */
const leastFallPct = 2;

/** What is on now is judged by what was on lately. */
const lookBackMs = 60 * minuteMs;

/**
 * What is left of a computer's battery; null on mains, or where nothing is known of it.
 *
 * The drain is the median of the slopes between all pairs of figures far enough apart (Theil 1950, Sen 1968): a
 * meter that sticks, or leaps by five, does not sway it.
 */
export function batteryLeft({ power, readings }: Pick<BoothState, "power" | "readings">): BatteryLeft | null {
  if (power === null || power.isOnMains) return null;
  const last = readings.battery.at(-1);
  if (last === undefined) return { batteryPct: power.batteryPct, atMs: power.atMs, minutesLeft: null };
  const recent = readings.battery.filter((point) => point.atMs >= last.atMs - lookBackMs);
  const perMinute = drainPctPerMin(recent);
  const minutesLeft = perMinute === null ? null : last.batteryPct / perMinute;
  return { batteryPct: last.batteryPct, atMs: last.atMs, minutesLeft };
}

/** Percents a minute; null: too short, or no fall. */
export function drainPctPerMin(points: readonly BatteryPoint[]): number | null {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined) return null;
  if (first.batteryPct - last.batteryPct < leastFallPct) return null;
  const slopes = points.flatMap((from, at) =>
    points.slice(at + 1).flatMap((to) => {
      const apartMs = to.atMs - from.atMs;
      return apartMs < leastApartMs ? [] : [((from.batteryPct - to.batteryPct) * minuteMs) / apartMs];
    }),
  );
  if (slopes.length === 0) return null;
  const median = medianOf(slopes);
  return median > 0 ? median : null;
}

function medianOf(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const half = Math.floor(sorted.length / 2);
  const [low, high] = [sorted[half - 1] ?? 0, sorted[half] ?? 0];
  return sorted.length % 2 === 1 ? high : (low + high) / 2;
}
