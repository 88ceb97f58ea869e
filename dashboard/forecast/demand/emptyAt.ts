import type { DemandAhead } from "./demandAhead.ts";

/**
 * The instant by which more than `sheets` are demanded with the chance `share`, between two steps by a straight
 * line; null when that does not come before the last step.
 */
export function emptyAtMs(ahead: DemandAhead, sheets: number, share: number): number | null {
  const { stepsAtMs } = ahead;
  const last = stepsAtMs.length - 1;
  if (sheets < 0 || (sheets === 0 && last === 0)) return ahead.atMs;
  const chanceAt = (step: number) => 1 - ahead.atMost(step, sheets);
  if (chanceAt(last) < share) return null;
  let low = 0;
  let high = last;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (chanceAt(middle) < share) low = middle;
    else high = middle;
  }
  const before = chanceAt(low);
  if (before >= share) return ahead.atMs;
  const part = (share - before) / (chanceAt(high) - before);
  return Math.round(stepsAtMs[low]! + part * (stepsAtMs[high]! - stepsAtMs[low]!));
}
