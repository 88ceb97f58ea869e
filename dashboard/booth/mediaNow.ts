import type { Booking, MediaFigure } from "@boothward/shared-types";
import type { BoothSettings } from "./boothSettings.ts";
import type { BoothState } from "./boothState.ts";
import { pitchesAfter } from "./bins.ts";
import type { MediaBase, MediaMarks, Meter } from "./mediaMarks.ts";
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

/** Some meters move in 5 or 10 % of a kit at a time (common practice, no source); none is taken as coarser. */
const coarsestStepShare = 0.1;

/**
 * What is left now, null when nothing is known of the media.
 *
 * The meter counts from its own time on, less what was printed since; the count starts from the roll fitted,
 * a person's correction, or what the plan says was loaded. A printer that says it is empty is believed.
 */
export function mediaNow(
  state: Pick<BoothState, "media" | "bins" | "printing">,
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
  const times = [marks.countedAtMs, base?.atMs ?? null, ...meters.map((meter) => meter.atMs)];
  const atMs = Math.max(...times.filter((each) => each !== null));
  const counted = base === null ? null : baseLeft(base, marks, kitSheets);
  if (meters.length === 0) {
    return base === null || counted === null ? null : between(counted, counted, figureOf(base), atMs);
  }
  const metered = Math.min(...meters.map((meter) => meterLeft(meter, marks, kitSheets)));
  const stepSheets = Math.max(...meters.map((meter) => stepOf(meter, kitSheets)));
  if (base === null || counted === null) return alone(metered, stepSheets, kitSheets, atMs);
  return together({ metered, counted, stepSheets, kitSheets, basis: base.basis, atMs });
}

/** What the plan says was loaded, as a beginning of the count; a roll fitted later goes before it. */
export function loadedBase(
  state: Pick<BoothState, "media" | "bins">,
  booking: BookedFrom | null,
): MediaBase | null {
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

/** How far the meter falls at a time. One in percent may be coarse until it has shown otherwise. */
function stepOf({ sheetsLeft, stepPct }: Meter, kitSheets: number): number {
  if (sheetsLeft !== null) return 1;
  const share = stepPct === null ? coarsestStepShare : stepPct / 100;
  return Math.min(share, coarsestStepShare) * kitSheets;
}

function toleranceOf(kitSheets: number): number {
  return Math.max(tolerance.sheets, tolerance.share * kitSheets);
}

/** A meter without a count beside it: a coarse one leaves a step's width open on either side. */
function alone(metered: number, stepSheets: number, kitSheets: number, atMs: number): MediaNow {
  const slack = stepSheets > toleranceOf(kitSheets) ? stepSheets : 0;
  const { sheetsLeft } = between(metered, metered, "metered", atMs);
  return { ...between(metered - slack, metered + slack, "metered", atMs), sheetsLeft };
}

type Both = {
  readonly metered: number;
  readonly counted: number;
  readonly stepSheets: number;
  readonly kitSheets: number;
  readonly basis: MediaBase["basis"];
  readonly atMs: number;
};

/** Meter and count beside each other: the finer of the two where they agree, else the smaller, and doubt. */
function together({ metered, counted, stepSheets, kitSheets, basis, atMs }: Both): MediaNow {
  const tolerated = toleranceOf(kitSheets);
  if (Math.abs(metered - counted) > Math.max(tolerated, stepSheets)) {
    // A roll fetched too early costs less than a booth without paper.
    return between(Math.min(metered, counted), Math.max(metered, counted), "doubtful", atMs);
  }
  if (basis === "corrected") return between(counted, counted, "confirmed", atMs);
  return stepSheets > tolerated
    ? between(counted, counted, "counted", atMs)
    : between(metered, metered, "metered", atMs);
}

function between(low: number, high: number, figure: MediaFigure, atMs: number): MediaNow {
  const lowSheets = Math.max(0, Math.round(low));
  return { sheetsLeft: lowSheets, lowSheets, highSheets: Math.max(0, Math.round(high)), figure, atMs };
}
