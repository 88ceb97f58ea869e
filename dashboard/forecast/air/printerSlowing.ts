import type { SheetInterval } from "../../booth/sheetPaces.ts";

/**
 * `slowingWithHeat`: the early sign. `slowingOtherwise`: slower, and not warmer, so look at paper, ribbon and cable.
 * The intervals are medians; `riseC` is how much warmer the late ones were, null when temperatures are missing.
 */
export type PrinterPace = {
  readonly pace: "notEnoughData" | "steady" | "slowingWithHeat" | "slowingOtherwise";
  readonly usualS: number | null;
  readonly lateS: number | null;
  readonly riseC: number | null;
};

/** The late sheets are the last six; with fewer than eight before them not even the clearest case would be sure. */
const lateSheets = 6;
const leastUsual = 8;

/** Slower by a sixth is felt by those who wait, and is more than paper, picture or copies make. Our own choice. */
const slowerBy = 1 / 6;

/** Warmer by less than this is no reason. Our own choice: a cheap sensor wanders by half of it. */
const warmerByC = 1;

/** How sure to be that late sheets are slower, in standard deviations of the rank sum: one false in a thousand. */
const surelySlowerZ = 3;

/**
 * Whether a printer slows down as it gets warmer: many pause between sheets to cool their head long before they stop
 * with an error (common practice, no source). Compares the last sheets with those before them by rank (Mann and
 * Whitney 1947), which a single jam or a slow picture does not sway.
 */
export function printerPace(intervals: readonly SheetInterval[]): PrinterPace {
  const usual = intervals.slice(0, -lateSheets);
  const late = intervals.slice(-lateSheets);
  if (usual.length < leastUsual) return { pace: "notEnoughData", usualS: null, lateS: null, riseC: null };
  const usualS = medianOf(usual.map(({ intervalS }) => intervalS));
  const lateS = medianOf(late.map(({ intervalS }) => intervalS));
  const riseC = riseBetween(usual, late);
  const isSlower = lateS >= usualS * (1 + slowerBy) && slowerZ(usual, late) >= surelySlowerZ;
  const slowing = riseC !== null && riseC >= warmerByC ? "slowingWithHeat" : "slowingOtherwise";
  return { pace: isSlower ? slowing : "steady", usualS, lateS, riseC };
}

function riseBetween(usual: readonly SheetInterval[], late: readonly SheetInterval[]): number | null {
  const [before, after] = [usual, late].map((some) =>
    some.flatMap(({ insideC }) => (insideC === null ? [] : [insideC])),
  );
  if (before === undefined || after === undefined || before.length === 0 || after.length === 0) return null;
  return medianOf(after) - medianOf(before);
}

/** The rank sum of the late sheets in standard deviations above what chance would give. */
function slowerZ(usual: readonly SheetInterval[], late: readonly SheetInterval[]): number {
  const wins = late.reduce(
    (sum, { intervalS }) =>
      sum +
      usual.reduce(
        (some, other) => some + (intervalS > other.intervalS ? 1 : intervalS === other.intervalS ? 0.5 : 0),
        0,
      ),
    0,
  );
  const pairs = usual.length * late.length;
  return (wins - pairs / 2) / Math.sqrt((pairs * (usual.length + late.length + 1)) / 12);
}

function medianOf(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((one, other) => one - other);
  const middle = Math.floor(sorted.length / 2);
  const [below, above] = [sorted[middle - 1] ?? 0, sorted[middle] ?? 0];
  return sorted.length % 2 === 1 ? above : (below + above) / 2;
}
