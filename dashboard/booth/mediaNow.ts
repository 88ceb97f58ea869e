import type { Booking, MediaFigure } from "@boothward/shared-types";
import type { BoothSettings } from "./boothSettings.ts";
import type { BoothState } from "./boothState.ts";
import { pitchesAfter } from "./bins.ts";
import { countedLeft, leftSince, type Counted } from "./countedLeft.ts";
import type { MediaBase, MediaMarks } from "./mediaMarks.ts";
import { lostMeterLeft, meteredLeft, type Metered } from "./meteredLeft.ts";
import { isLookedAt } from "./printerNow.ts";
import { saysEmpty } from "./printerReasons.ts";

/** What is left on the roll, and how that is known. */
export type MediaNow = {
  readonly sheetsLeft: number;
  /** The range the figure may lie in; both the figure itself when meter and count agree. */
  readonly lowSheets: number;
  readonly highSheets: number;
  readonly figure: MediaFigure;
  /** Who confirmed it; null where nobody did. */
  readonly confirmedBy: string | null;
  /** When it was last seen or counted. */
  readonly atMs: number;
};

export type MediaSettings = Pick<BoothSettings, "kitSheets" | "changeWasteSheets">;

/** What a figure of the media is made of. */
export type MediaFacts = Pick<BoothState, "media" | "bins" | "printing" | "faults" | "agent" | "headAtMs">;

/** A booking with the instant from which facts belong to it. */
export type BookedFrom = Pick<Booking, "sheetsLoaded"> & { readonly fromAtMs: number };

/** Meter and count may part by this before a person is asked: sheets, share of a kit. Our own choice. */
const tolerance = { sheets: 2, share: 0.03 };

/**
 * What is left now, null when nothing is known of the media.
 *
 * A meter says an interval as wide as its step, at its own time, less what was printed since; the count starts
 * from the roll fitted, a person's correction, or what the plan says was loaded. What both allow is what is
 * left; when there is no such figure it is doubtful, and the range holds both. A printer that says it is empty
 * is believed.
 */
export function mediaNow(
  state: MediaFacts,
  settings: MediaSettings,
  booking: BookedFrom | null,
): MediaNow | null {
  const loaded = loadedBase(state, booking);
  const emptyAtMs = emptySince(state, baseOf(state.media.marks, loaded));
  if (emptyAtMs === null) return mediaAt(state.media.marks, loaded, settings);
  const none = { sheetsLeft: 0, lowSheets: 0, highSheets: 0 };
  return { ...none, figure: "metered", confirmedBy: null, atMs: emptyAtMs };
}

/** Since when a printer says that it is empty; one out of sight is believed until a person said more. */
function emptySince(state: MediaFacts, base: MediaBase | null): number | null {
  const { printing, faults, headAtMs } = state;
  const empty = printing.printers.find((printer) => {
    if (!saysEmpty(printer.reasons) || !isLookedAt(printer, state, headAtMs ?? -Infinity)) return false;
    const isLost = faults.some(({ source }) => source === printer.source);
    return !isLost || (base?.atMs ?? -Infinity) <= printer.saidAtMs;
  });
  return empty?.sinceAtMs ?? null;
}

/** The same from one moment's marks, for the trail. `loaded` is what the plan says, or null. */
export function mediaAt(
  marks: MediaMarks,
  loaded: MediaBase | null,
  settings: MediaSettings,
): MediaNow | null {
  const base = baseOf(marks, loaded);
  const tolerated = toleranceOf(settings.kitSheets);
  const metered = meteredLeft(marks, base, settings.kitSheets, tolerated);
  const counted = base === null ? null : countedLeft(base, marks, settings, tolerated);
  const times = [marks.countedAtMs, base?.atMs ?? null, metered?.atMs ?? null];
  const atMs = Math.max(...times.filter((each) => each !== null));
  if (counted === null) return metered === null ? null : { ...alone(metered), atMs };
  if (metered === null) {
    const lost = lostMeterLeft(marks, base, settings.kitSheets, tolerated);
    return { ...(lost === null ? ofCount(counted) : afterMeter(lost, counted, tolerated)), atMs };
  }
  return { ...together(metered, counted, tolerated), atMs };
}

/** Where the count begins: at what the plan says was loaded, unless something was said since. */
export function baseOf(marks: MediaMarks, loaded: MediaBase | null): MediaBase | null {
  return loaded !== null && (marks.base?.atMs ?? -Infinity) < loaded.atMs ? loaded : marks.base;
}

/** What the plan says was loaded, as a beginning of the count; a roll fitted later goes before it. */
export function loadedBase(
  state: Pick<BoothState, "media" | "bins">,
  booking: BookedFrom | null,
): MediaBase | null {
  if (booking === null || booking.sheetsLoaded === null) return null;
  const { pitchesEver } = state.media.marks;
  return {
    ...{ basis: "loaded", sheets: booking.sheetsLoaded, leftPct: null, by: null },
    atMs: booking.fromAtMs,
    pitchesAt: pitchesEver - pitchesAfter(state.bins, booking.fromAtMs),
    ...{ isWasteSaid: false, metersThen: [] },
  };
}

/** Whether meter and count are further apart than they may be, and by how much the meter is above. */
export function meterAboveCount(
  marks: MediaMarks,
  loaded: MediaBase | null,
  settings: MediaSettings,
): number | null {
  const base = baseOf(marks, loaded);
  const metered = meteredLeft(marks, base, settings.kitSheets, toleranceOf(settings.kitSheets));
  if (base === null || metered === null) return null;
  return metered.sheets - leftSince(base, marks, settings);
}

function toleranceOf(kitSheets: number): number {
  return Math.max(tolerance.sheets, tolerance.share * kitSheets);
}

type Figured = Omit<MediaNow, "atMs">;

/** A meter without a count beside it. */
function alone({ sheets, low, high }: Metered): Figured {
  return figured(sheets, low, high, "metered", null);
}

function ofCount({ sheets, low, high, figure, by }: Counted): Figured {
  return figured(sheets, low, high, figure, figure === "confirmed" ? by : null);
}

/** A count beside a meter that is lost: what the two did not agree on stays in doubt. */
function afterMeter(lost: Metered, counted: Counted, tolerated: number): Figured {
  const both = together(lost, counted, tolerated);
  return both.figure === "doubtful" ? both : ofCount(counted);
}

/** Meter and count beside each other: what both allow, else the smaller, and doubt. */
function together(metered: Metered, counted: Counted, tolerated: number): Figured {
  const low = Math.max(metered.low, counted.low - tolerated);
  const high = Math.min(metered.high, counted.high + tolerated);
  if (low > high) {
    // A roll fetched too early costs less than a booth without paper.
    const least = Math.min(metered.sheets, counted.sheets);
    const widest = [Math.min(metered.low, counted.low), Math.max(metered.high, counted.high)] as const;
    return figured(least, ...widest, "doubtful", null);
  }
  if (counted.figure === "confirmed") return confirmed(metered, counted);
  if (metered.isFine) return figured(metered.sheets, metered.sheets, metered.sheets, "metered", null);
  const sheets = Math.min(Math.max(counted.sheets, low), high);
  const isSure = counted.figure !== "doubtful" && counted.low === counted.high;
  // A count a little outside of what the meter allows: one of the two is off by as much.
  return isSure
    ? figured(
        sheets,
        Math.min(sheets, counted.sheets),
        Math.max(sheets, counted.sheets),
        counted.figure,
        null,
      )
    : figured(sheets, low, high, counted.figure, null);
}

/** A meter that went on from a person's count sheet by sheet has also seen what nobody counted; another may have. */
function confirmed({ sheets, isFine, isAnchored }: Metered, counted: Counted): Figured {
  if (!isFine) return ofCount(counted);
  const figure = isAnchored ? sheets : counted.sheets;
  return figured(figure, Math.min(sheets, figure), Math.max(sheets, figure), "confirmed", counted.by);
}

function figured(
  sheets: number,
  low: number,
  high: number,
  figure: MediaFigure,
  confirmedBy: string | null,
): Figured {
  const whole = (each: number) => Math.max(0, Math.round(each));
  const [sheetsLeft, lowSheets, highSheets] = [whole(sheets), whole(low), whole(high)];
  return { sheetsLeft, lowSheets, highSheets, figure, confirmedBy };
}
