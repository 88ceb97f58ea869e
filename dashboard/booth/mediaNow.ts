import type { Booking, MediaFigure } from "@boothward/shared-types";
import type { BoothSettings } from "./boothSettings.ts";
import type { BoothState } from "./boothState.ts";
import { pitchesAfter } from "./bins.ts";
import type { MediaBase, MediaMarks, Meter } from "./mediaLedger.ts";
import { saysEmpty } from "./printerReasons.ts";

/** What is left on the roll, and how that is known. */
export type MediaNow = {
  readonly sheetsLeft: number;
  /** The range the figure may lie in; both the figure itself when meter and count agree. */
  readonly lowSheets: number;
  readonly highSheets: number;
  readonly figure: MediaFigure;
  /** When it was last seen or counted. */
  readonly atMs: number;
};

/** A booking with the instant from which facts belong to it. */
export type BookedFrom = Pick<Booking, "sheetsLoaded"> & { readonly fromAtMs: number };

/** Meter and count may part by this before a person is asked: sheets, share of a kit. Our own choice. */
const tolerance = { sheets: 2, share: 0.03 };

/** A meter that moves in larger steps than this share of a kit says too little to doubt nothing. */
const coarsestStepShare = 0.1;

/**
 * What is left now, null when nothing is known of the media.
 *
 * The meter counts from its own time on, less what was printed since; the count starts from the roll fitted,
 * a person's correction, or what the plan says was loaded. A printer that says it is empty is believed.
 */
export function mediaNow(
  state: BoothState,
  settings: Pick<BoothSettings, "kitSheets">,
  booking: BookedFrom | null,
): MediaNow | null {
  const empty = state.printing.printers.find((printer) => saysEmpty(printer.reasons));
  if (empty !== undefined) {
    return { sheetsLeft: 0, lowSheets: 0, highSheets: 0, figure: "metered", atMs: empty.sinceAtMs };
  }
  return mediaAt(state.media.marks, loadedBase(state, booking), settings.kitSheets);
}

/** The same from one moment's marks, for the trail. `loaded` is what the plan says, or null. */
export function mediaAt(marks: MediaMarks, loaded: MediaBase | null, kitSheets: number): MediaNow | null {
  const base = loaded !== null && (marks.base?.atMs ?? -Infinity) < loaded.atMs ? loaded : marks.base;
  const meters = marks.meters.filter((meter) => meter.atMs >= (base?.atMs ?? -Infinity));
  const metered = meters.length === 0 ? null : Math.min(...meters.map((m) => meterLeft(m, marks, kitSheets)));
  const counted = base === null ? null : baseLeft(base, marks, kitSheets);
  const atMs = Math.max(...[marks.countedAtMs, base?.atMs, ...meters.map((m) => m.atMs)].map((t) => t ?? 0));
  if (metered === null)
    return base === null || counted === null ? null : exactly(counted, figureOf(base), atMs);
  if (base === null || counted === null) return exactly(metered, "metered", atMs);
  if (Math.abs(metered - counted) > tolerated(meters, kitSheets)) return doubtful(metered, counted, atMs);
  return base.basis === "corrected" ? exactly(counted, "confirmed", atMs) : exactly(metered, "metered", atMs);
}

/** What the plan says was loaded, as a beginning of the count; a roll fitted later goes before it. */
export function loadedBase(state: BoothState, booking: BookedFrom | null): MediaBase | null {
  if (booking === null || booking.sheetsLoaded === null) return null;
  const { pitchesEver } = state.media.marks;
  return {
    basis: "fitted",
    sheets: booking.sheetsLoaded,
    leftPct: null,
    atMs: booking.fromAtMs,
    pitchesAt: pitchesEver - pitchesAfter(state.bins, booking.fromAtMs),
  };
}

function meterLeft(meter: Meter, marks: MediaMarks, kitSheets: number): number {
  const atItsTime = meter.sheetsLeft ?? ((meter.leftPct ?? 0) / 100) * kitSheets;
  return atItsTime - (marks.pitchesEver - meter.pitchesAt);
}

function baseLeft(base: MediaBase, marks: MediaMarks, kitSheets: number): number {
  const share = base.leftPct === null ? 1 : base.leftPct / 100;
  return (base.sheets ?? share * kitSheets) - (marks.pitchesEver - base.pitchesAt);
}

function figureOf(base: MediaBase): MediaFigure {
  if (base.basis === "corrected") return "confirmed";
  // That a whole roll was put in after the printer was empty is likely, and a person should say so.
  return base.basis === "assumed" ? "doubtful" : "counted";
}

function tolerated(meters: readonly Meter[], kitSheets: number): number {
  const steps = meters.map((m) =>
    m.sheetsLeft === null ? ((m.step ?? 1) / 100) * kitSheets : (m.step ?? 1),
  );
  const step = Math.min(Math.max(...steps), coarsestStepShare * kitSheets);
  return Math.max(tolerance.sheets, tolerance.share * kitSheets, step);
}

function exactly(sheets: number, figure: MediaFigure, atMs: number): MediaNow {
  const sheetsLeft = Math.max(0, Math.round(sheets));
  return { sheetsLeft, lowSheets: sheetsLeft, highSheets: sheetsLeft, figure, atMs };
}

/** The smaller of the two is shown: a roll fetched too early costs less than a booth without paper. */
function doubtful(metered: number, counted: number, atMs: number): MediaNow {
  const low = Math.max(0, Math.round(Math.min(metered, counted)));
  const high = Math.max(0, Math.round(Math.max(metered, counted)));
  return { sheetsLeft: low, lowSheets: low, highSheets: high, figure: "doubtful", atMs };
}
