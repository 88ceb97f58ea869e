import jStat from "jstat";
import type { UseAhead } from "./useAhead.ts";

/** Chance that `rolls` are enough for all that is used until an order comes that is made `fromDays` from now. */
export function enoughChance(use: UseAhead, leads: Float64Array, fromDays: number, rolls: number): number {
  let sum = 0;
  for (const lead of leads) sum += chanceOfEnough(use(fromDays + lead), rolls);
  return sum / leads.length;
}

/**
 * Rolls that are enough with the chance `share`, 0 < share < 1: the quantile of use over the lead time.
 *
 * The lead time is averaged over, not folded into one normal curve: it is skewed, and the usual formula (mean
 * plus z times the standard deviation) then promises 99 % and keeps 96.8 %.
 */
export function rollsEnough(use: UseAhead, leads: Float64Array, fromDays: number, share: number): number {
  if (enoughChance(use, leads, fromDays, 0) >= share) return 0;
  let low = 0;
  let high = 1;
  while (enoughChance(use, leads, fromDays, high) < share) high *= 2;
  for (let round = 0; round < 40 && high - low > 0.001; round += 1) {
    const middle = (low + high) / 2;
    if (enoughChance(use, leads, fromDays, middle) < share) low = middle;
    else high = middle;
  }
  return high;
}

/** Chance that a use that is normally distributed takes no more than `rolls`. */
export function chanceOfEnough({ mean, variance }: ReturnType<UseAhead>, rolls: number): number {
  // Nothing is expected to be used, or it is known to the roll.
  if (variance <= 0) return rolls >= mean ? 1 : 0;
  return jStat.normal.cdf(rolls, mean, Math.sqrt(variance));
}
