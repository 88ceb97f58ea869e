import type { Rationing } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";

/** One night in twenty may still run out. */
const riskKept = 0.05;

/** Sessions that take hardly more than one sheet leave nothing to save. */
const asGoodAsOne = 1.05;

/**
 * What one print a session would do for `sheets`, all that is aboard: the chance that they last if it begins
 * now, and the latest moment, to a step of the forecast, at which it still keeps the risk at 5 %.
 *
 * `ahead` runs to the close. Null: they last without it, or sessions take one sheet already.
 */
export function rationing(ahead: DemandAhead, sheets: number): Rationing | null {
  const { stepsAtMs } = ahead;
  const last = stepsAtMs.length - 1;
  if (last < 1 || ahead.sheetsPerSession <= asGoodAsOne) return null;
  if (ahead.atMost(last, sheets) >= 1 - riskKept) return null;
  const lastsFrom = (atMs: number) => ahead.withSheetsPerSession(1, atMs).atMost(last, sheets);
  const lastsChanceNow = lastsFrom(ahead.atMs);
  if (lastsChanceNow < 1 - riskKept) return { lastsChanceNow, latestAtMs: null, riskKept };
  // The later it begins the less it saves: halve the stretch between what works and what does not.
  let [works, fails] = [0, last];
  while (fails - works > 1) {
    const middle = Math.floor((works + fails) / 2);
    if (lastsFrom(stepsAtMs[middle] ?? ahead.atMs) >= 1 - riskKept) works = middle;
    else fails = middle;
  }
  return { lastsChanceNow, latestAtMs: stepsAtMs[works] ?? ahead.atMs, riskKept };
}
