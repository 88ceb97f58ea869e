import * as z from "zod/mini";
import { countDifference } from "./view.ts";
import { matter, pitchBasis, sessionBasis, severity } from "./words.ts";

/**
 * What an evening came to, in figures: page, CSV and PDF read the same. The client's part holds nothing of the
 * owner's. Numbers and words of code only; unknown is null.
 */

const count = z.number();
const countOrNull = z.nullable(z.number());

/** A figure that the owner may correct. */
export const figureWord = z.enum(["sessions", "prints", "sheets", "reprints", "digitalOnly", "readyMin"]);
export type FigureWord = z.infer<typeof figureWord>;

/** Of the guests, in the open hours; null: nothing at the booth could see it. */
export const reportFigures = z.object({
  sessions: countOrNull,
  /** Pieces in guests' hands. */
  prints: countOrNull,
  /** 4x6 lengths of paper they used. */
  sheets: countOrNull,
  /** Sheets of no session. */
  reprints: countOrNull,
  /** Sessions without a print. */
  digitalOnly: countOrNull,
});
export type ReportFigures = z.infer<typeof reportFigures>;

/** A quarter-hour by the clock on the venue's wall, from its first instant. */
export const reportQuarter = z.object({
  atMs: z.number(),
  sessions: count,
  prints: countOrNull,
  sheets: countOrNull,
});
export type ReportQuarter = z.infer<typeof reportQuarter>;

/**
 * A stretch of the open hours that was not ready for guests, or of which it is not known. `unknown`: nothing was
 * heard of the booth and nothing printed.
 */
export const reportPause = z.object({
  fromAtMs: z.number(),
  toAtMs: z.number(),
  why: z.enum(["stopped", "rollChange", "packedDown", "onBreak", "unknown"]),
  /** stopped: IPP's keyword without suffix, the worst that was seen; "stopped" where the printer gave none. */
  reason: z.nullable(z.string()),
});
export type ReportPause = z.infer<typeof reportPause>;

/** Lengths on instants: a night on which the clocks change has its true length. */
export const reportTime = z.object({
  bookedMs: z.number(),
  /** By how much the close was moved; below 0 it came sooner. */
  overrunMs: z.number(),
  breaksMs: z.number(),
  /** Booked and overrun, less breaks. */
  promisedMs: z.number(),
  /** promised = ready + stopped + packed down early + unknown. */
  readyMs: z.number(),
  stoppedMs: z.number(),
  packedDownMs: z.number(),
  unknownMs: z.number(),
});
export type ReportTime = z.infer<typeof reportTime>;

/** What the client reads. */
export const clientReport = z.object({
  client: z.string(),
  place: z.string(),
  eventKind: z.string(),
  boothName: z.string(),
  /** IANA time zone of the venue. */
  zone: z.string(),
  openAtMs: z.number(),
  /** As it was extended. */
  closeAtMs: z.number(),
  /** Counted up to this instant: the close, or the present of an evening that goes on. */
  throughAtMs: z.number(),
  isOver: z.boolean(),
  /** Of an invented event day. */
  isInvented: z.boolean(),
  figures: reportFigures,
  time: reportTime,
  /** Figures that a person corrected; the quarter-hours are as counted. */
  corrected: z.array(figureWord),
  quarters: z.array(reportQuarter),
  busiest: z.nullable(z.object({ atMs: z.number(), sessions: z.number() })),
  pauses: z.array(reportPause),
});
export type ClientReport = z.infer<typeof clientReport>;

/** A figure that a person put right, and its trail. */
export const reportCorrection = z.object({
  field: figureWord,
  was: countOrNull,
  is: count,
  why: z.string(),
  by: z.string(),
  atMs: z.number(),
});
export type ReportCorrection = z.infer<typeof reportCorrection>;

/** One alert of the evening, and how fast it was met; null: it was not. */
export const reportAlert = z.object({
  alertId: z.string(),
  matter,
  severity,
  sinceAtMs: z.number(),
  raisedAtMs: z.number(),
  /** When it first came to anybody's device, or the service beyond took it. */
  toldAtMs: z.nullable(z.number()),
  takenAtMs: z.nullable(z.number()),
  takenBy: z.nullable(z.string()),
  clearedAtMs: z.nullable(z.number()),
});
export type ReportAlert = z.infer<typeof reportAlert>;

/** How fast the alerts of an evening were met, from their raising; null: none of them was. */
export const alertsMet = z.object({
  alerts: count,
  told: count,
  taken: count,
  medianToldMs: z.nullable(z.number()),
  medianTakenMs: z.nullable(z.number()),
  longestTakenMs: z.nullable(z.number()),
});
export type AlertsMet = z.infer<typeof alertsMet>;

/** What only the owner reads. */
export const ownerReport = z.object({
  bookingId: z.string(),
  boothId: z.string(),
  guests: countOrNull,
  /** As counted, before any correction. */
  counted: z.extend(reportFigures, { readyMin: z.number() }),
  /** Oldest first. */
  corrections: z.array(reportCorrection),
  /** Sessions outside the open hours with their sheets, and test sheets: in no figure of the client's. */
  outside: z.object({ sessions: count, sheets: count }),
  /** By what was counted, and what each source saw in the open hours: two counts where two differ. */
  counts: z.object({
    sessionsBy: z.nullable(sessionBasis),
    sheetsBy: z.nullable(pitchBasis),
    sessions: z.array(z.object({ by: sessionBasis, count })),
    sheets: z.array(z.object({ by: pitchBasis, count })),
    difference: z.nullable(countDifference),
  }),
  paper: z.object({
    /** Off the roll from packing to packing down, waste with it. */
    sheetsUsed: count,
    /** As far as somebody said it. */
    wasted: z.object({ change: count, test: count, spoilt: count }),
    kitSheets: count,
    /** `sheets` null: a full kit, or as the meter said. */
    rolls: z.array(
      z.object({
        atMs: z.number(),
        sheets: countOrNull,
        by: z.nullable(z.string()),
        /** Said by a person, seen by the meter, or concluded. */
        basis: z.enum(["fitted", "jumped", "assumed"]),
      }),
    ),
  }),
  /** From the end of a session to its first sheet; null: sessions and prints are not told apart. */
  waits: z.nullable(
    z.object({ known: count, medianMs: z.number(), longestMs: z.number(), longestAtMs: z.number() }),
  ),
  /** By the minute in the open hours, over all thermometers at the printer. */
  inside: z.nullable(
    z.object({
      minC: z.number(),
      meanC: z.number(),
      maxC: z.number(),
      limitC: z.number(),
      minutes: count,
      aboveLimitMin: count,
    }),
  ),
  /** What may have happened where nothing was heard: estimates, in no other figure. */
  gaps: z.array(
    z.object({
      fromAtMs: z.number(),
      toAtMs: z.number(),
      /** By the pace around it; null: too little is known around it. */
      sessionsEstimate: countOrNull,
      /** What the printer's counter had moved by afterwards; these sheets are counted at that moment. */
      sheetsAfter: countOrNull,
    }),
  ),
  alerts: z.array(reportAlert),
  /** null: there was no alert. */
  met: z.nullable(alertsMet),
  /** Of the paper used; null: no price was typed in. */
  cost: z.nullable(z.object({ amount: z.number(), currency: z.string(), pricePerRoll: z.number() })),
});
export type OwnerReport = z.infer<typeof ownerReport>;

export const report = z.object({ client: clientReport, owner: ownerReport });
export type Report = z.infer<typeof report>;

/** An evening as one line of the history. */
export const reportRow = z.object({
  bookingId: z.string(),
  boothId: z.string(),
  boothName: z.string(),
  client: z.string(),
  place: z.string(),
  eventKind: z.string(),
  zone: z.string(),
  openAtMs: z.number(),
  closeAtMs: z.number(),
  isInvented: z.boolean(),
  figures: reportFigures,
  isCorrected: z.boolean(),
  promisedMs: z.number(),
  readyMs: z.number(),
  stoppedMs: z.number(),
  unknownMs: z.number(),
  sheetsUsed: z.number(),
  wastedSheets: z.number(),
  kitSheets: z.number(),
  rollsFitted: z.number(),
  busiest: z.nullable(z.object({ atMs: z.number(), sessions: z.number() })),
});
export type ReportRow = z.infer<typeof reportRow>;

/** Sums over evenings; each sums what is known, and says of how many evenings it is not. */
export const seasonTotals = z.object({
  /** Clients' days: several booths at one are one. */
  events: z.number(),
  /** One booth at one event. */
  evenings: z.number(),
  sessions: z.number(),
  prints: z.number(),
  sheets: z.number(),
  unknown: z.object({ sessions: z.number(), prints: z.number(), sheets: z.number() }),
  promisedMs: z.number(),
  readyMs: z.number(),
  stoppedMs: z.number(),
  unknownMs: z.number(),
  sheetsUsed: z.number(),
  wastedSheets: z.number(),
  rollsFitted: z.number(),
  /** Full kits' worth of the paper used. */
  kitsUsed: z.number(),
});
export type SeasonTotals = z.infer<typeof seasonTotals>;

/** Answer of `GET /api/reports?fromAtMs&toAtMs`: evenings that are over, the latest first. */
export const reportHistory = z.object({
  rows: z.array(reportRow),
  totals: seasonTotals,
  /** Evenings that are still being counted and are in neither; ask again. */
  waiting: z.number(),
});
export type ReportHistory = z.infer<typeof reportHistory>;

/** Answer of `GET /api/shared-reports/:token`. */
export const sharedReport = z.object({
  report: clientReport,
  business: z.object({ name: z.string(), hasLogo: z.boolean() }),
});
export type SharedReport = z.infer<typeof sharedReport>;

/** What the business typed in for its reports. The logo is base64 of a PNG or JPEG. */
export const businessSettings = z.object({
  name: z.string().check(z.trim(), z.maxLength(80)),
  logo: z.nullable(z.string()),
  paper: z.enum(["a4", "letter"]),
  pricePerRoll: z.nullable(z.number().check(z.gte(0), z.lte(100_000))),
  /** ISO 4217's three letters. */
  currency: z.string().check(z.regex(/^[A-Z]{3}$/, "is not a currency of three letters")),
});
export type BusinessSettings = z.infer<typeof businessSettings>;
