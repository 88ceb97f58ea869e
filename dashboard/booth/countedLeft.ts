import type { MediaFigure } from "@boothward/shared-types";
import type { BoothSettings } from "./boothSettings.ts";
import type { MediaBase, MediaMarks } from "./mediaMarks.ts";

/** What the count says is left now, from where it begins. */
export type Counted = {
  readonly sheets: number;
  readonly low: number;
  readonly high: number;
  readonly figure: MediaFigure;
  readonly by: string | null;
};

type CountSettings = Pick<BoothSettings, "kitSheets" | "changeWasteSheets">;

/** Sheets wasted when a roll is changed: 1 to 4 (common practice, no source); where the booth has no figure of its own. */
const usualChangeWasteSheets = 2;

/** Rolls hold 400 or 700 sheets (common practice, no source): one of more than this was mistyped. */
const largestRollSheets = 1_000;

/** Some meters move in tenths of a kit: what one of them said of a new roll is no surer than that. */
const pctStepShare = 0.1;

/**
 * What is left by the count alone. Doubtful when nobody said what was put in, when it was more than a roll
 * holds, and when more was printed than there was: then a roll was changed and nobody told.
 */
export function countedLeft(
  base: MediaBase,
  marks: MediaMarks,
  settings: CountSettings,
  tolerated: number,
): Counted {
  const { by, basis } = base;
  if (basis === "off") return { sheets: 0, low: 0, high: 0, figure: "confirmed", by };
  const sheets = leftSince(base, marks, settings);
  const used = marks.pitchesEver - base.pitchesAt;
  if (sheets < -tolerated) {
    return { sheets: 0, low: 0, high: settings.kitSheets, figure: "doubtful", by };
  }
  if (basis === "assumed") return { sheets, low: 0, high: settings.kitSheets - used, figure: "doubtful", by };
  const likely = settings.kitSheets - used;
  if (isTooMuch(base, settings)) return { sheets: likely, low: 0, high: sheets, figure: "doubtful", by };
  if (basis === "jumped" && base.leftPct !== null) {
    const slack = pctStepShare * settings.kitSheets;
    return { sheets, low: sheets - slack, high: Math.min(sheets + slack, likely), figure: "metered", by };
  }
  return { sheets, low: sheets, high: sheets, figure: basis === "corrected" ? "confirmed" : "counted", by };
}

/** What the roll held at the base, less the waste of its change and what was used since. */
export function leftSince(base: MediaBase, marks: MediaMarks, settings: CountSettings): number {
  const share = base.leftPct === null ? 1 : base.leftPct / 100;
  const held = base.sheets ?? share * settings.kitSheets;
  return held - wasteOf(base, settings) - (marks.pitchesEver - base.pitchesAt);
}

/** A meter has seen the waste of a change, and a person who counts counts without it. */
function wasteOf({ basis, isWasteSaid }: MediaBase, settings: CountSettings): number {
  if (isWasteSaid || (basis !== "fitted" && basis !== "assumed")) return 0;
  return settings.changeWasteSheets ?? usualChangeWasteSheets;
}

function isTooMuch({ basis, sheets }: MediaBase, { kitSheets }: CountSettings): boolean {
  return basis !== "corrected" && sheets !== null && sheets > Math.max(largestRollSheets, 2 * kitSheets);
}
