import type { Wander } from "./belief.ts";
import type { PastEvening } from "./demandInput.ts";
import { heightAt, type Shape } from "./shapes.ts";

/** Until enough evenings are seen the wandering is taken as usual; the usual one counts as so many evenings. Fitted. */
const usualEvenings = 3;
const usualFast = { sd: 0.33, tauMin: 22 };
const usualSlow = { sd: 0.25, tauMin: 110 };

/**
 * How the rate of such evenings wanders about their mean shape: from the products of neighbouring quarter-hours'
 * deviations, which chance alone would leave at nothing, near ones for the fast part and an hour apart for the
 * slow.
 */
export function pastWander(
  evenings: readonly PastEvening[],
  meanShape: Shape,
): { fast: Wander; slow: Wander } {
  const near = laggedVariance(evenings, meanShape, 1);
  const far = laggedVariance(evenings, meanShape, 4);
  const slowSeen = Math.max(0, far) / Math.exp(-60 / usualSlow.tauMin);
  const nearSlow = slowSeen * Math.exp(-15 / usualSlow.tauMin);
  const fastSeen = Math.max(0, near - nearSlow) / Math.exp(-15 / usualFast.tauMin);
  return {
    fast: { sd: blendedSd(fastSeen, usualFast.sd, evenings.length), tauMin: usualFast.tauMin },
    slow: { sd: blendedSd(slowSeen, usualSlow.sd, evenings.length), tauMin: usualSlow.tauMin },
  };
}

function blendedSd(seenVariance: number, usualSd: number, evenings: number): number {
  const variance = (evenings * seenVariance + usualEvenings * usualSd ** 2) / (evenings + usualEvenings);
  return Math.min(0.6, Math.max(0.06, Math.sqrt(variance)));
}

/** Products of deviations so many quarter-hours apart, as a share of the products of what was expected. */
function laggedVariance(evenings: readonly PastEvening[], meanShape: Shape, lag: number): number {
  let products = 0;
  let expectedProducts = 0;
  for (const { sheetsPer15Min } of evenings) {
    const quarters = sheetsPer15Min.length;
    const heights = sheetsPer15Min.map((_, quarter) => heightAt(meanShape, (quarter + 0.5) / quarters));
    const scale =
      sheetsPer15Min.reduce((total, sheets) => total + sheets, 0) /
      heights.reduce((total, height) => total + height, 0);
    for (let quarter = lag; quarter < quarters; quarter += 1) {
      const expected = scale * heights[quarter]!;
      const expectedBefore = scale * heights[quarter - lag]!;
      products += (sheetsPer15Min[quarter]! - expected) * (sheetsPer15Min[quarter - lag]! - expectedBefore);
      expectedProducts += expected * expectedBefore;
    }
  }
  return expectedProducts > 0 ? products / expectedProducts : 0;
}
