import type { MediaBase, MediaMarks, Meter } from "./mediaMarks.ts";
import { isStepKnown } from "./meters.ts";

/** What the meters say is left now, each less what was printed since it spoke. */
export type Metered = {
  readonly sheets: number;
  /** As wide on either side as the meter moves at a time: nobody knows how it rounds. */
  readonly low: number;
  readonly high: number;
  /** It moves sheet by sheet, or near enough. */
  readonly isFine: boolean;
  /** What it said when a person counted is known, and taken off since. */
  readonly isAnchored: boolean;
  readonly atMs: number;
};

/** Some meters move in 5 or 10 % of a kit at a time (common practice, no source); none is taken as coarser. */
const coarsestShare = 0.1;

/** A meter that counts sheets falls by a whole job at a time, of up to four 6x8 prints; a coarse one by more. */
const jobSheets = 8;

/** The meters since `base`; of several parts the one that ends first counts. Null: none has a figure. */
export function meteredLeft(
  marks: MediaMarks,
  base: MediaBase | null,
  kitSheets: number,
  tolerated: number,
): Metered | null {
  return leftByMeters(metersSince(marks, base, false), marks, base, kitSheets, tolerated);
}

/** What meters that are lost said last of this roll, less what was printed since: no figure, but it may raise a doubt. */
export function lostMeterLeft(
  marks: MediaMarks,
  base: MediaBase | null,
  kitSheets: number,
  tolerated: number,
): Metered | null {
  return leftByMeters(metersSince(marks, base, true), marks, base, kitSheets, tolerated);
}

function metersSince({ meters }: MediaMarks, base: MediaBase | null, isLost: boolean): readonly Meter[] {
  return meters.filter((meter) => meter.isLost === isLost && meter.atMs >= (base?.atMs ?? -Infinity));
}

function leftByMeters(
  meters: readonly Meter[],
  marks: MediaMarks,
  base: MediaBase | null,
  kitSheets: number,
  tolerated: number,
): Metered | null {
  if (meters.length === 0) return null;
  const each = meters.map((meter) => {
    const step = stepOf(meter, kitSheets);
    const sheets = leftBy(meter, marks, kitSheets) - knownError(meter, base, kitSheets, tolerated);
    const isAnchored = thenOf(meter, base) !== null;
    return { sheets, low: sheets - step, high: sheets + step, isFine: step === 0, isAnchored };
  });
  const least = each.reduce((a, b) => (b.sheets < a.sheets ? b : a));
  return {
    sheets: least.sheets,
    low: Math.min(...each.map(({ low }) => low)),
    high: Math.min(...each.map(({ high }) => high)),
    isFine: least.isFine,
    isAnchored: least.isAnchored,
    atMs: Math.max(...meters.map(({ atMs }) => atMs)),
  };
}

function leftBy(meter: Meter, marks: Pick<MediaMarks, "pitchesEver">, kitSheets: number): number {
  const atItsTime = meter.sheetsLeft ?? ((meter.leftPct ?? 0) / 100) * kitSheets;
  return atItsTime - (marks.pitchesEver - meter.pitchesAt);
}

/** How far the meter falls at a time; 0: sheet by sheet. One in percent may be coarse until it shows otherwise. */
function stepOf(meter: Meter, kitSheets: number): number {
  const coarsest = coarsestShare * kitSheets;
  const step = isStepKnown(meter) ? meter.step : null;
  if (meter.sheetsLeft !== null) return step === null || step <= jobSheets ? 0 : Math.min(step, coarsest);
  return step === null ? coarsest : Math.min((step / 100) * kitSheets, coarsest);
}

/** How much too high the meter was when a person counted; of a coarse one, as far as that was more than it may be. */
function knownError(meter: Meter, base: MediaBase | null, kitSheets: number, tolerated: number): number {
  const then = thenOf(meter, base);
  if (then === null || base === null || base.sheets === null) return 0;
  const error = leftBy(then, { pitchesEver: base.pitchesAt }, kitSheets) - base.sheets;
  const step = stepOf(then, kitSheets);
  return step === 0 || Math.abs(error) > Math.max(tolerated, step) ? error : 0;
}

/** What the meter said when a person counted; null: it said nothing then. */
function thenOf({ key }: Meter, base: MediaBase | null): Meter | null {
  return base?.metersThen.find((each) => each.key === key) ?? null;
}
