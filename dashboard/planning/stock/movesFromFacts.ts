import type { StoredItem } from "@boothward/shared-types";
import type { StockMove } from "@boothward/shared-types/stock";
import type { RollChange } from "../../booth/mediaMarks.ts";
import { mediaAt, type MediaSettings } from "../../booth/mediaNow.ts";
import { stateOfItems } from "../../booth/timeline.ts";
import { caseOf, eventPlace, places } from "./places.ts";

/** A stretch of a booth's time, and whose it is; `bookingId` null: no event's. */
export type RollWindow = {
  readonly fromAtMs: number;
  readonly toAtMs: number;
  readonly bookingId: string | null;
  /** Rolls were loaded for the event: then they are used from there, else from the booth's case. */
  readonly hasOwnRolls: boolean;
};

/** A kit is full with a few sheets less: a meter has seen what the change wasted. Share of a kit; our own choice. */
const fullFromShare = 0.95;

/**
 * The moves of rolls at one booth within a window, from what was said and seen there: put in, by a person's word
 * or as a meter showed; taken off before the end; words taken back are none. They are worked out each time and
 * never stored, so a late or corrected fact changes them by itself.
 *
 * `facts` may begin before the window, so that what happens at its beginning is understood.
 */
export function movesFromFacts(
  facts: readonly StoredItem[],
  booth: MediaSettings & { readonly boothId: string },
  window: RollWindow,
): StockMove[] {
  const { changes } = stateOfItems(booth.boothId, facts).media;
  const offs = changes.flatMap(({ base }) =>
    base.basis === "off" && base.sheets !== null ? base.sheets : [],
  );
  return changes
    .filter(({ base }) => base.atMs >= window.fromAtMs && base.atMs < window.toAtMs)
    .flatMap((change) => moveOf(change, amountOf(change, booth, offs), booth.boothId, window));
}

type Amount = "full" | number | null;

function amountOf(change: RollChange, settings: MediaSettings, offs: readonly number[]): Amount {
  return change.base.basis === "off" ? leftOn(change, settings) : heldBy(change, settings, offs);
}

function moveOf(
  { base: { atMs, by, basis } }: RollChange,
  amount: Amount,
  boothId: string,
  { bookingId, hasOwnRolls }: RollWindow,
): StockMove[] {
  if (amount === null) return [];
  const isOff = basis === "off";
  const source = bookingId !== null && hasOwnRolls ? eventPlace(bookingId) : caseOf(boothId);
  const id = `roll-${boothId}-${atMs}-${isOff ? "off" : "in"}`;
  return [
    {
      ...{ moveId: id, onceKey: id, atMs, saidAtMs: atMs, by, boothId, bookingId },
      ...(isOff
        ? { fromPlace: places.used, toPlace: source, why: "returned" as const }
        : { fromPlace: source, toPlace: places.used, why: "used" as const }),
      ...(amount === "full" ? { rolls: 1, partialSheets: null } : { rolls: 0, partialSheets: amount }),
      ...{ counted: null, takes: null, orderId: null, note: null },
    },
  ];
}

/** What was put in: a full roll, or the sheets of a part roll, of one also that came off when it was nearly full. */
function heldBy({ base }: RollChange, { kitSheets }: MediaSettings, offs: readonly number[]): Amount {
  const sheets = base.sheets ?? (base.leftPct === null ? kitSheets : (base.leftPct * kitSheets) / 100);
  return sheets >= fullFromShare * kitSheets && !offs.includes(sheets) ? "full" : wholeSheets(sheets);
}

/** What a person counted on the roll that came off, else what the ledger says; null: nothing, or not known. */
function leftOn({ base, before }: RollChange, settings: MediaSettings): Amount {
  const sheets = base.sheets ?? mediaAt(before, null, settings)?.sheetsLeft ?? null;
  return sheets === null ? null : wholeSheets(sheets);
}

function wholeSheets(sheets: number): number | null {
  const whole = Math.round(sheets);
  return whole > 0 ? whole : null;
}
