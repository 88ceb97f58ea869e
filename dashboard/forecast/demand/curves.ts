import { type EveningBins, binStartMs } from "./eveningBins.ts";
import { normalQuantile } from "./normal.ts";
import { shareAt, sharesUpTo, type Shape } from "./shapes.ts";

/** Shapes as they may run this evening, each in many variants: the share of the evening's sessions for each bin. */
export type Curves = {
  /** Row by row, `bins` shares each; a row's bins up to the close add up to 1. */
  readonly shares: Float64Array;
  readonly bins: number;
  /** Chance of this row and all before it. */
  readonly chanceUpTo: Float64Array;
  /** For each row the first row of its shape and the first of the next shape. */
  readonly firstRow: Uint16Array;
  readonly nextFirstRow: Uint16Array;
};

/** A shape, how likely it is to be the evening's, and how far an evening may differ from it. */
export type LikelyShape = { readonly shape: Shape; readonly chance: number; readonly leeway: Leeway };

/** Spreads, as standard deviations of logarithms. */
export type Leeway = {
  /** The parts of an evening come earlier or later than usual: place u becomes u^g. */
  readonly warp: number;
  /** The late part is stronger than the early one, or weaker: by this from the one end to the other. */
  readonly tilt: number;
  /** Peaks and lulls stand out more than usual, or less: height h becomes h^c. */
  readonly contrast: number;
};

/** Places and chances by which three values stand for a normal variable. Source: Gauss-Hermite quadrature. */
const threeOf = [
  [-Math.sqrt(3), 1 / 6],
  [0, 2 / 3],
  [Math.sqrt(3), 1 / 6],
] as const;
const warps = 7;

/** Bins past the close for which a share is kept; the last one stands for all later ones. */
const binsAfterClose = 1;

type Variant = { readonly upTo: Float64Array; readonly places: Float64Array; readonly chance: number };

/** Curves of the likely shapes for an evening. Throws when there is no shape. */
export function curvesOf(likely: readonly LikelyShape[], evening: EveningBins): Curves {
  const total = likely.reduce((sum, { chance }) => sum + chance, 0);
  if (!(total > 0)) throw new Error(`curves of ${likely.length} shapes with the chance ${total}`);
  const placesOf = warpedPlaces(evening);
  const variants = likely.map((one) => variantsOf(one, placesOf(one.leeway.warp)));
  const rows = variants.reduce((sum, { length }) => sum + length, 0);
  const bins = evening.count + binsAfterClose;
  const curves = {
    shares: new Float64Array(rows * bins),
    bins,
    chanceUpTo: new Float64Array(rows),
    firstRow: new Uint16Array(rows),
    nextFirstRow: new Uint16Array(rows),
  };
  let row = 0;
  let upToNow = 0;
  for (const ofShape of variants) {
    const first = row;
    for (const { upTo, places, chance } of ofShape) {
      fillRow(curves.shares.subarray(row * bins, (row + 1) * bins), upTo, places, evening);
      upToNow += chance / total;
      curves.chanceUpTo[row] = upToNow;
      row += 1;
    }
    curves.firstRow.fill(first, first, row);
    curves.nextFirstRow.fill(row, first, row);
  }
  return curves;
}

/** For each warp of a spread the places, 0 to 1, of the bins' ends. */
function warpedPlaces(evening: EveningBins): (spread: number) => readonly Float64Array[] {
  const known = new Map<number, readonly Float64Array[]>();
  const lengthMs = evening.closeAtMs - evening.openAtMs;
  const ends = Float64Array.from(
    { length: evening.count },
    (_, bin) => (Math.min(binStartMs(evening, bin + 1), evening.closeAtMs) - evening.openAtMs) / lengthMs,
  );
  return (spread) => {
    const made =
      known.get(spread) ??
      powersOf(spread).map((power) => {
        return ends.map((place) => Math.pow(place, power));
      });
    known.set(spread, made);
    return made;
  };
}

function powersOf(spread: number): readonly number[] {
  if (spread === 0) return [1];
  return Array.from({ length: warps }, (_, warp) => Math.exp(spread * normalQuantile((warp + 0.5) / warps)));
}

function variantsOf(
  { shape, chance, leeway }: LikelyShape,
  warped: readonly Float64Array[],
): readonly Variant[] {
  const unbent = [[0, 1]] as const;
  const variants: Variant[] = [];
  for (const [tilts, tiltChance] of leeway.tilt > 0 ? threeOf : unbent)
    for (const [contrasts, contrastChance] of leeway.contrast > 0 ? threeOf : unbent) {
      const bent = bentShape(shape, leeway.tilt * tilts, Math.exp(leeway.contrast * contrasts));
      const upTo = sharesUpTo(bent);
      for (const places of warped)
        variants.push({ upTo, places, chance: (chance * tiltChance * contrastChance) / warped.length });
    }
  return variants;
}

function bentShape(shape: Shape, tilt: number, contrast: number): Shape {
  const last = Math.max(1, shape.length - 1);
  return shape.map(
    (height, at) => Math.pow(Math.max(0, height), contrast) * Math.exp(tilt * (at / last - 0.5)),
  );
}

/** The rate at the close is held on: the last bin is as full as if the close were at its end, and so are later ones. */
function fillRow(row: Float64Array, upTo: Float64Array, places: Float64Array, evening: EveningBins): void {
  let before = 0;
  for (let bin = 0; bin < evening.count; bin += 1) {
    const share = shareAt(upTo, places[bin]!);
    row[bin] = share - before;
    before = share;
  }
  const lastOpenMs = evening.closeAtMs - binStartMs(evening, evening.count - 1);
  row[evening.count - 1]! *= evening.binMs / lastOpenMs;
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

/** Another variant of the same shape. */
export function otherVariant(curves: Curves, row: number, thrown: number): number {
  const first = curves.firstRow[row]!;
  const from = first === 0 ? 0 : curves.chanceUpTo[first - 1]!;
  const to = curves.chanceUpTo[curves.nextFirstRow[row]! - 1]!;
  return rowAt(curves, from + (to - from) * thrown);
}
