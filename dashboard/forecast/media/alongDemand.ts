import type { DemandAhead } from "../demand/demandAhead.ts";

/** The step of a forecast that tells of an instant: the first not before it; the last when all are before it. */
export function stepAt({ stepsAtMs }: DemandAhead, atMs: number): number {
  const step = stepsAtMs.findIndex((each) => each >= atMs);
  return step < 0 ? stepsAtMs.length - 1 : step;
}

/** Mean sheets demanded up to an instant, between the steps by a straight line; level outside them. */
export function meanUntil(ahead: DemandAhead, atMs: number): number {
  const { stepsAtMs } = ahead;
  const step = stepAt(ahead, atMs);
  const toAtMs = stepsAtMs[step] ?? ahead.atMs;
  const fromAtMs = stepsAtMs[step - 1];
  if (fromAtMs === undefined || atMs >= toAtMs) return ahead.mean(step);
  const before = ahead.mean(step - 1);
  return before + ((ahead.mean(step) - before) * (atMs - fromAtMs)) / (toAtMs - fromAtMs);
}

/** Groups of guests that come to the booth in a stretch of time, on average. */
export function groupsBetween(ahead: DemandAhead, fromAtMs: number, toAtMs: number): number {
  const sheets = meanUntil(ahead, toAtMs) - meanUntil(ahead, fromAtMs);
  return Math.max(0, sheets) / Math.max(1, ahead.sheetsPerSession);
}

/** The chance that so many sheets are used up by a step. */
export function emptyChance(ahead: DemandAhead, step: number, sheets: number): number {
  if (sheets <= 0) return 1;
  return Math.min(1, Math.max(0, 1 - ahead.atMost(step, sheets - 1)));
}

/** Points of the distribution that its mean is taken over where a roll may be empty or not. */
const points = 10;

/** So near to certain that the other case is left out. */
const certain = 0.999;

/** Sheets still on a roll of `sheets` at a step, on average over the evenings that may come. */
export function leftOnAverage(ahead: DemandAhead, step: number, sheets: number): number {
  const empty = emptyChance(ahead, step, sheets);
  if (empty >= certain) return 0;
  if (empty <= 1 - certain) return Math.max(0, sheets - ahead.mean(step));
  let sum = 0;
  for (let point = 0; point < points; point += 1) {
    sum += Math.max(0, sheets - ahead.quantile(step, (point + 0.5) / points));
  }
  return sum / points;
}
