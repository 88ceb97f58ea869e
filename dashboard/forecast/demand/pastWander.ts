import type { PastEvening } from "./demandInput.ts";
import { heightAt, type Shape } from "./shapes.ts";

/** A wandering of the log rate that comes back to its mean: an Ornstein-Uhlenbeck process. */
export type Wander = { readonly sd: number; readonly tauMin: number };

/** How the rate of earlier evenings went up and down about their mean shape. */
export type PastWander = {
  readonly fast: Wander;
  readonly slow: Wander;
  /** Variance of a count over its mean when the rate is known. */
  readonly overdispersion: number;
};

/** Until enough evenings are seen the wandering is taken as usual; the usual one counts as so many evenings. Fitted. */
const usualEvenings = 3;
const usualFast = { sd: 0.33, tauMin: 22 };
const usualSlow = { sd: 0.25, tauMin: 110 };
const usualOverdispersion = 1.4;

/** By chance alone counts differ no less than this; more than the other comes of what was not foreseen. */
const overdispersionWithin = [1, 2.2] as const;

/** Single sessions of several sheets differ so much in size: variance over squared mean. Fitted. */
const sizeSpread = 0.2;

/**
 * How the rate of such evenings wanders about their mean shape: from the products of neighbouring quarter-hours'
 * deviations, which chance alone would leave at nothing, near ones for the fast part and an hour apart for the
 * slow. What the squares of the deviations have beyond that is how unevenly guests come.
 */
export function pastWander(evenings: readonly PastEvening[], meanShape: Shape): PastWander {
  const deviations = evenings.map((evening) => deviationsOf(evening, meanShape));
  const near = laggedVariance(deviations, 1);
  const far = laggedVariance(deviations, 4);
  const slowSeen = Math.max(0, far) / Math.exp(-60 / usualSlow.tauMin);
  const nearSlow = slowSeen * Math.exp(-15 / usualSlow.tauMin);
  const fastSeen = Math.max(0, near - nearSlow) / Math.exp(-15 / usualFast.tauMin);
  const spreadSeen = unevenness(deviations, fastSeen + slowSeen) / sheetsPerSessionOf(evenings);
  const isSingle = sheetsPerSessionOf(evenings) <= 1;
  return {
    fast: { sd: blendedSd(fastSeen, usualFast.sd, evenings.length), tauMin: usualFast.tauMin },
    slow: { sd: blendedSd(slowSeen, usualSlow.sd, evenings.length), tauMin: usualSlow.tauMin },
    overdispersion: within(
      overdispersionWithin,
      blended(isSingle ? spreadSeen : spreadSeen - sizeSpread, usualOverdispersion, evenings.length),
    ),
  };
}

function sheetsPerSessionOf(evenings: readonly PastEvening[]): number {
  const sessions = evenings.reduce((total, evening) => total + evening.sessions, 0);
  return Math.max(1, evenings.reduce((total, { sheets }) => total + sheets, 0) / Math.max(1, sessions));
}

function blended(seen: number, usual: number, evenings: number): number {
  return (evenings * seen + usualEvenings * usual) / (evenings + usualEvenings);
}

function blendedSd(seenVariance: number, usualSd: number, evenings: number): number {
  return within([0.06, 0.6], Math.sqrt(blended(seenVariance, usualSd ** 2, evenings)));
}

function within([least, most]: readonly [number, number], figure: number): number {
  return Math.min(most, Math.max(least, figure));
}

/** What was expected of a quarter-hour, by the mean shape and the evening's own total, and what came beyond it. */
type Deviation = { readonly expected: number; readonly off: number };

function deviationsOf({ sheetsPer15Min }: PastEvening, meanShape: Shape): readonly Deviation[] {
  const quarters = sheetsPer15Min.length;
  const heights = sheetsPer15Min.map((_, quarter) => heightAt(meanShape, (quarter + 0.5) / quarters));
  const scale =
    sheetsPer15Min.reduce((total, sheets) => total + sheets, 0) /
    heights.reduce((total, height) => total + height, 0);
  return sheetsPer15Min.map((sheets, quarter) => {
    const expected = scale * heights[quarter]!;
    return { expected, off: sheets - expected };
  });
}

/** Products of deviations so many quarter-hours apart, as a share of the products of what was expected. */
function laggedVariance(evenings: readonly (readonly Deviation[])[], lag: number): number {
  let products = 0;
  let expectedProducts = 0;
  for (const deviations of evenings)
    for (let quarter = lag; quarter < deviations.length; quarter += 1) {
      const now = deviations[quarter]!;
      const before = deviations[quarter - lag]!;
      products += now.off * before.off;
      expectedProducts += now.expected * before.expected;
    }
  return expectedProducts > 0 ? products / expectedProducts : 0;
}

/** Variance over mean of the counts that wandering with this variance leaves unexplained. */
function unevenness(evenings: readonly (readonly Deviation[])[], wandering: number): number {
  const all = evenings.flat();
  const left = all.reduce((sum, { off, expected }) => sum + off ** 2 - wandering * expected ** 2, 0);
  const expected = all.reduce((sum, deviation) => sum + deviation.expected, 0);
  return expected > 0 ? Math.max(0, left) / expected : 0;
}
