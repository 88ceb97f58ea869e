import * as z from "zod/mini";

/**
 * How the forecast would have done at a booking that is over: what it would have said each quarter of an hour,
 * beside what was really used. Numbers and words of code only; the page makes the sentences.
 */

const band = z.object({ p10: z.number(), p50: z.number(), p90: z.number() });
const bandOrNull = z.object({
  p10: z.nullable(z.number()),
  p50: z.nullable(z.number()),
  p90: z.nullable(z.number()),
});

/** What the forecast would have said at one moment, made from what was known by then and nothing later. */
export const replayAsk = z.object({
  atMs: z.number(),
  /** On the roll loaded then; null: nothing was known of it. */
  sheetsLeft: z.nullable(z.number()),
  /** Sheets to the close, 80 % band; null: nothing to forecast from. */
  demandToEnd: z.nullable(band),
  /** When that roll would be empty; nulls: not before the close, or not known. */
  emptyAtMs: bandOrNull,
  /** Chance that that roll lasts to the close; null: not known. */
  lastsChance: z.nullable(z.number()),
  /** Sheets that were really used from here to the close. */
  usedToEnd: z.number(),
});
export type ReplayAsk = z.infer<typeof replayAsk>;

/**
 * What the warning was worth. `warned`: it came a quarter of an hour or more before the first roll ended;
 * `warnedLate`: later than that; `missed`: never before; `lasted`: no roll ended and none was warned of;
 * `warnedInVain`: warned, and the roll lasted; `unknown`: nothing was known of the paper.
 */
export const replayVerdict = z.enum(["warned", "warnedLate", "missed", "lasted", "warnedInVain", "unknown"]);
export type ReplayVerdict = z.infer<typeof replayVerdict>;

export const replaySummary = z.object({
  /** Asks with a band; the share of them in which the true use lay within it, 0.8 is meant; null: no ask. */
  asks: z.number(),
  heldShare: z.nullable(z.number()),
  /** First moment at which it would have warned of that roll; null: never. */
  warnedAtMs: z.nullable(z.number()),
  /** When the first roll was empty, or changed though it would not have lasted; null: it lasted to the close. */
  rollEnd: z.nullable(z.object({ atMs: z.number(), how: z.enum(["changed", "empty"]) })),
  /** From the warning to that end, ms; null where either is missing. */
  aheadMs: z.nullable(z.number()),
  verdict: replayVerdict,
});
export type ReplaySummary = z.infer<typeof replaySummary>;

/** Answer of `GET /api/bookings/:bookingId/replay`. */
export const replayView = z.object({
  bookingId: z.string(),
  boothId: z.string(),
  boothName: z.string(),
  client: z.string(),
  place: z.string(),
  eventKind: z.string(),
  /** IANA time zone of the venue. */
  zone: z.string(),
  openAtMs: z.number(),
  /** As it was extended. */
  closeAtMs: z.number(),
  guests: z.nullable(z.number()),
  /** Earlier evenings of the kind that the forecast had learned from. */
  pastEvenings: z.number(),
  sessions: z.number(),
  sheetsUsed: z.number(),
  /** Every quarter of an hour from the opening on, the last before the close. */
  asks: z.array(replayAsk),
  /** Sheets used since the opening, one point every five minutes, for the curve of what was true. */
  used: z.array(z.object({ atMs: z.number(), sheetsUsed: z.number() })),
  rollChangesAtMs: z.array(z.number()),
  summary: replaySummary,
});
export type ReplayView = z.infer<typeof replayView>;
