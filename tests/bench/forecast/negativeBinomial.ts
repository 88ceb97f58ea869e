/**
 * The negative binomial distribution, by its size and mean: how many come when the rate itself is not known
 * for certain.
 *
 * Source: probabilities by the recurrence P(k) = P(k-1) (k-1+size)/k (1-prob), prob = size/(size+mean);
 * an infinite size is the Poisson distribution.
 */
export type NegativeBinomial = { readonly size: number; readonly mean: number };

/** Enough for the largest roll many times over; what lies beyond is as good as certain. */
const mostCounts = 20_000;

/** P(X <= k). */
export function nbAtMost({ size, mean }: NegativeBinomial, k: number): number {
  if (k < 0) return 0;
  if (mean <= 0) return 1;
  let sum = 0;
  const last = Math.min(Math.floor(k), mostCounts);
  for (const logP of logProbabilities(size, mean, last)) sum += Math.exp(logP);
  return Math.min(1, sum);
}

/** The smallest k with P(X <= k) >= share, for each share, which come in rising order between 0 and 1. */
export function nbQuantiles({ size, mean }: NegativeBinomial, shares: readonly number[]): readonly number[] {
  if (mean <= 0) return shares.map(() => 0);
  const quantiles: number[] = [];
  let sum = 0;
  let k = 0;
  for (const logP of logProbabilities(size, mean, mostCounts)) {
    sum += Math.exp(logP);
    while (quantiles.length < shares.length && sum >= (shares[quantiles.length] ?? 1)) quantiles.push(k);
    if (quantiles.length === shares.length) break;
    k += 1;
  }
  while (quantiles.length < shares.length) quantiles.push(mostCounts);
  return quantiles;
}

/** log P(0), log P(1) ... log P(last); logarithms, because P(0) of a busy evening is too small for a number. */
function* logProbabilities(size: number, mean: number, last: number): Generator<number> {
  const isPoisson = size === Infinity;
  let logP = isPoisson ? -mean : -size * Math.log1p(mean / size);
  const logMiss = isPoisson ? Math.log(mean) : Math.log(mean) - Math.log(size + mean);
  yield logP;
  for (let k = 1; k <= last; k += 1) {
    logP += (isPoisson ? 0 : Math.log(k - 1 + size)) - Math.log(k) + logMiss;
    yield logP;
  }
}
