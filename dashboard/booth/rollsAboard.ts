import type { Booking } from "@boothward/shared-types";
import type { BoothState } from "./boothState.ts";
import { leftSince } from "./countedLeft.ts";
import { loadedBase, mediaAt, type BookedFrom, type MediaSettings } from "./mediaNow.ts";
import type { MediaBase, RollChange } from "./mediaMarks.ts";

/** Rolls that are at the booth beside the loaded one. */
export type RollsAboard = {
  /** Full ones: the plan's, less those fitted since the opening; null without a booking. */
  readonly spares: number | null;
  /** Sheets on each roll that came off before its end, newest first. */
  readonly partials: readonly number[];
};

/** A roll that is put on again holds what it held when it came off, give or take a few: sheets, share of a kit. */
const sameRoll = { sheets: 3, share: 0.05 };

type RollFacts = Pick<BoothState, "media" | "bins">;
type BookedRolls = BookedFrom & Pick<Booking, "openAtMs" | "spareRolls">;

/** The rolls aboard, from all that were put in and taken off. A partial roll put back uses no spare. */
export function rollsAboard(
  state: RollFacts,
  settings: MediaSettings,
  booking: BookedRolls | null,
): RollsAboard {
  const loaded = loadedBase(state, booking);
  let partials: readonly number[] = [];
  let fitted = 0;
  for (const change of state.media.changes) {
    const { base } = change;
    if (base.basis === "off") {
      partials = [...partials, ...leftOn(change, loaded, settings)];
      continue;
    }
    const sheets = heldBy(base, settings);
    const back = backOnIndex(partials, sheets, settings);
    if (back >= 0) partials = partials.filter((_, at) => at !== back);
    else if (isFull(sheets, settings) && base.atMs >= (booking?.openAtMs ?? Infinity)) fitted++;
  }
  const spares = booking === null ? null : Math.max(0, booking.spareRolls - fitted);
  return { spares, partials: [...partials].reverse() };
}

/** What a person counted on the roll that came off, else what the ledger says; nothing when neither knows. */
function leftOn(
  { base, before }: RollChange,
  loaded: MediaBase | null,
  settings: MediaSettings,
): readonly number[] {
  const sheets = base.sheets ?? mediaAt(before, loadedThen(before.base, loaded), settings)?.sheetsLeft ?? 0;
  return sheets > 0 ? [sheets] : [];
}

/** The plan's load counts for what came off only when it was loaded before. */
function loadedThen(before: MediaBase | null, loaded: MediaBase | null): MediaBase | null {
  return before !== null && loaded !== null && before.atMs >= loaded.atMs ? null : loaded;
}

function heldBy(base: MediaBase, settings: MediaSettings): number {
  const full = { pitchesEver: base.pitchesAt, countedAtMs: null, meters: [], base };
  return leftSince({ ...base, isWasteSaid: true }, full, settings);
}

function backOnIndex(partials: readonly number[], sheets: number, settings: MediaSettings): number {
  if (isFull(sheets, settings)) return partials.lastIndexOf(sheets);
  const most = Math.max(sameRoll.sheets, sameRoll.share * settings.kitSheets);
  const offs = partials.map((each) => Math.abs(each - sheets));
  const nearest = Math.min(...offs);
  return nearest <= most ? offs.lastIndexOf(nearest) : -1;
}

/** A kit is full with a few sheets less: a meter has seen what the change wasted. */
function isFull(sheets: number, { kitSheets }: MediaSettings): boolean {
  return sheets >= kitSheets - Math.max(sameRoll.sheets, sameRoll.share * kitSheets);
}
