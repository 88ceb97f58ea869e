const minuteMs = 60_000;
const steps = [5, 10, 15, 30, 60, 120, 180].map((minutes) => minutes * minuteMs);

/**
 * Round moments inside a stretch of time, at most `most` of them, none so near its end that its label would
 * touch the one of now. Round in UTC, which is round in every zone that is off by whole quarter-hours when
 * the step is no longer than that, and good enough for an axis elsewhere.
 */
export function timeTicks(fromAtMs: number, toAtMs: number, most: number): number[] {
  const lengthMs = toAtMs - fromAtMs;
  const stepMs = steps.find((step) => lengthMs / step <= most + 0.5) ?? lengthMs;
  const ticks: number[] = [];
  for (let atMs = Math.ceil(fromAtMs / stepMs) * stepMs; atMs < toAtMs - lengthMs * 0.12; atMs += stepMs)
    ticks.push(atMs);
  return ticks;
}
