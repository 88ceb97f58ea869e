import jStat from "jstat";

/**
 * How much to have for a season's last weeks, when what is left over is worth less and what is missing costs
 * more: the quantile of use at the critical ratio short / (short + left).
 *
 * Source: Cachon & Terwiesch, Matching Supply with Demand, 3e, chapter 12.
 */
export function newsvendor(
  { mean, sd }: { readonly mean: number; readonly sd: number },
  { shortCost, leftCost }: { readonly shortCost: number; readonly leftCost: number },
): { readonly rolls: number; readonly enoughShare: number } {
  const enoughShare = shortCost / (shortCost + leftCost);
  if (sd <= 0) return { rolls: mean, enoughShare };
  return { rolls: Math.max(0, jStat.normal.inv(enoughShare, mean, sd)), enoughShare };
}
