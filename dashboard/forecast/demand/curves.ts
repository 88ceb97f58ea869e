import { type EveningBins, binStartMs } from "./eveningBins.ts";
import { normalQuantile } from "./normal.ts";
import { shareAt, sharesUpTo, type Shape } from "./shapes.ts";

/** Shapes as they may run this evening: each in several warps, the share of the evening's sessions for each bin. */
export type Curves = {
  /** Row by row, `bins` shares each; a row's bins up to the close add up to 1. */
  readonly shares: Float64Array;
  readonly bins: number;
  /** Chance of this row and all before it. */
  readonly chanceUpTo: Float64Array;
};

/** A shape and how likely it is to be the evening's. */
export type LikelyShape = { readonly shape: Shape; readonly chance: number };

/** The parts of an evening come earlier or later than usual: u becomes u^g, log g normal with this spread. Fitted. */
const warpSd = 0.17;
const warps = 9;

/** Bins past the close for which a share is kept; the last one stands for all later ones. */
const binsAfterClose = 1;

/** Curves of the likely shapes for an evening. Throws when there is no shape. */
export function curvesOf(likely: readonly LikelyShape[], evening: EveningBins, warpShare = 1): Curves {
  const bins = evening.count + binsAfterClose;
  const shares = new Float64Array(likely.length * warps * bins);
  const chanceUpTo = new Float64Array(likely.length * warps);
  const total = likely.reduce((sum, { chance }) => sum + chance, 0);
  if (!(total > 0)) throw new Error(`curves of ${likely.length} shapes with the chance ${total}`);
  let row = 0;
  let upToNow = 0;
  for (const { shape, chance } of likely) {
    const upTo = sharesUpTo(shape);
    for (let warp = 0; warp < warps; warp += 1) {
      const power = Math.exp(warpSd * warpShare * normalQuantile((warp + 0.5) / warps));
      fillRow(shares.subarray(row * bins, (row + 1) * bins), upTo, power, evening);
      upToNow += chance / total / warps;
      chanceUpTo[row] = upToNow;
      row += 1;
    }
  }
  return { shares, bins, chanceUpTo };
}

/** The rate at the close is held on: the last bin is as full as if the close were at its end, and so are later ones. */
function fillRow(row: Float64Array, upTo: Float64Array, power: number, evening: EveningBins): void {
  const lengthMs = evening.closeAtMs - evening.openAtMs;
  let before = 0;
  for (let bin = 0; bin < evening.count; bin += 1) {
    const endMs = Math.min(binStartMs(evening, bin + 1), evening.closeAtMs);
    const openMs = endMs - binStartMs(evening, bin);
    const place = (endMs - evening.openAtMs) / lengthMs;
    const share = shareAt(upTo, Math.pow(place, power));
    row[bin] = ((share - before) * evening.binMs) / openMs;
    before = share;
  }
  row.fill(row[evening.count - 1]!, evening.count);
}

/** The row that a throw of even dice falls on. */
export function rowAt({ chanceUpTo }: Curves, thrown: number): number {
  let low = 0;
  let high = chanceUpTo.length - 1;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (chanceUpTo[middle]! > thrown) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** Another warp of the same shape. */
export function otherWarp(row: number, thrown: number): number {
  return row - (row % warps) + Math.floor(thrown * warps);
}
