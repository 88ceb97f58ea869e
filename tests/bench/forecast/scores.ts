/** The rules by which forecasts are compared; each is better when lower. */

/**
 * The quantile (pinball) score of a forecast `quantile` for the level `share` when `seen` came.
 *
 * **Source:** Gneiting and Raftery, Strictly Proper Scoring Rules (2007), as the R package scoringRules has it.
 */
export function quantileScore(quantile: number, seen: number, share: number): number {
  return seen >= quantile ? share * (seen - quantile) : (1 - share) * (quantile - seen);
}

/** The mean squared difference of a chance and what came; NaN of none. **Source:** Brier (1950). */
export function brierScore(said: readonly SaidChance[]): number {
  return mean(said.map(({ chance, came }) => (chance - (came ? 1 : 0)) ** 2));
}

/** A chance that was named, and whether it came so. */
export type SaidChance = { readonly chance: number; readonly came: boolean };

/** The Brier score of naming the same share each time, which is known only afterwards. */
export function baseRateScore(said: readonly SaidChance[]): number {
  const rate = mean(said.map(({ came }) => (came ? 1 : 0)));
  return rate * (1 - rate);
}

/** How far named chances are from the shares that came, in ten equal classes weighted by how often each is named. */
export function calibrationError(said: readonly SaidChance[]): number {
  const classes = 10;
  let error = 0;
  for (let at = 0; at < classes; at += 1) {
    const inside = said.filter(({ chance }) => Math.min(classes - 1, Math.floor(chance * classes)) === at);
    if (inside.length === 0) continue;
    const named = mean(inside.map(({ chance }) => chance));
    const came = mean(inside.map(({ came: one }) => (one ? 1 : 0)));
    error += (inside.length / said.length) * Math.abs(named - came);
  }
  return error;
}

/** NaN of none. */
export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
