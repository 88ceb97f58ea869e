import type { RollsToClose } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { wasteAtChange } from "./rollWaste.ts";

/** So many nights in a hundred have enough. */
const enoughShare = 0.99;

/** What is aboard beside the loaded roll. */
export type Aboard = {
  /** Sheets in a full kit. */
  readonly kitSheets: number;
  /** Full rolls; null: not known. */
  readonly spareRolls: number | null;
  /** Sheets on each roll that came off before its end. */
  readonly partialRolls: readonly number[];
};

/**
 * Whole rolls needed beside the loaded one for all that may be demanded up to a step, each less what its
 * fitting wastes at most; and the chance that what is aboard is enough. `lowSheets` is the least that may be
 * loaded.
 */
export function rollsToClose(
  ahead: DemandAhead,
  step: number,
  paper: { readonly lowSheets: number; readonly sheetsLeft: number },
  aboard: Aboard,
): RollsToClose {
  const short = ahead.quantile(step, enoughShare) - paper.lowSheets;
  const usable = Math.max(1, aboard.kitSheets - wasteAtChange.most);
  const all = sheetsAboard(paper.sheetsLeft, aboard);
  return {
    needed: Math.max(0, Math.ceil(short / usable)),
    spares: aboard.spareRolls,
    lastsChance: all === null ? null : ahead.atMost(step, all),
  };
}

/** Sheets that guests can have from all that is aboard, waste at each fitting taken off; null: spares not known. */
export function sheetsAboard(sheetsLeft: number, aboard: Aboard): number | null {
  const { kitSheets, spareRolls, partialRolls } = aboard;
  if (spareRolls === null) return null;
  const usable = (sheets: number) => Math.max(0, sheets - wasteAtChange.usual);
  const partials = partialRolls.reduce((sum, sheets) => sum + usable(sheets), 0);
  return sheetsLeft + spareRolls * usable(kitSheets) + partials;
}
