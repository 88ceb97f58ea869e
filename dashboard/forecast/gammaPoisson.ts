import { nbAtMost, type NegativeBinomial } from "./negativeBinomial.ts";

/**
 * A rate that is known as well as `shape` sheets seen in `hours` would tell it (a gamma distribution with the
 * mean shape / hours).
 *
 * Source: the conjugate prior of Poisson counts; any textbook of Bayesian statistics.
 */
export type RateBelief = { readonly shape: number; readonly hours: number };

/** What a plan says: a mean rate, and by what share of itself it may be off (one standard deviation). */
export function beliefOfPlan(perHour: number, spread: number): RateBelief {
  const shape = 1 / spread ** 2;
  return { shape, hours: shape / perHour };
}

/** The belief after so many sheets in so many hours. */
export function withSeen(belief: RateBelief, sheets: number, hours: number): RateBelief {
  return { shape: belief.shape + sheets, hours: belief.hours + hours };
}

export function perHourOf({ shape, hours }: RateBelief): number {
  return shape / hours;
}

/**
 * How many sheets are asked for in `hours` from now on.
 *
 * `clumping` is the variance of a count over its mean at a known rate: 1 for single sheets at random, more
 * where they come in groups. `drift` is how far the rate may wander from itself meanwhile, one standard
 * deviation as a share.
 */
export function demandIn(
  belief: RateBelief,
  hours: number,
  { clumping, drift }: { readonly clumping: number; readonly drift: number } = { clumping: 1, drift: 0 },
): NegativeBinomial {
  const mean = perHourOf(belief) * hours;
  const excess = (clumping - 1) * mean + mean ** 2 * (1 / belief.shape + drift ** 2);
  return { size: excess > 0 ? mean ** 2 / excess : Infinity, mean };
}

/** The chance that `sheets` are used up. */
export function runOutChance(demand: NegativeBinomial, sheets: number): number {
  return sheets <= 0 ? 1 : 1 - nbAtMost(demand, sheets - 1);
}
