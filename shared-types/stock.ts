import * as z from "zod/mini";

/**
 * Stock of media as a ledger of moves, as the HTTP side tells it. One move takes full rolls, or one part roll,
 * from a place to another; nothing in it is ever changed or taken out.
 */

/**
 * A place that rolls can be at: the store, a booth's case, an event; on their way; and the places outside,
 * where rolls come from and go to.
 */
export const stockPlace = z
  .string()
  .check(z.regex(/^(store|order|used|lost|unexplained|supplier|(case|event):[\w.:-]{1,80})$/));

/** Why rolls moved; `takenBack` moves nothing and takes an earlier move out of the reckoning. */
export const moveWhy = z.enum([
  ...(["ordered", "arrived", "bought", "loaded", "returned", "used"] as const),
  ...(["counted", "corrected", "lost", "takenBack"] as const),
]);
export type MoveWhy = z.infer<typeof moveWhy>;

const rolls = z.int().check(z.gte(0), z.lte(10_000));
const sheets = z.int().check(z.gte(1), z.lte(5_000));
const note = z.nullable(z.string().check(z.maxLength(200)));
const name = z.string().check(z.minLength(1), z.maxLength(80));

/** What a count found at a place. */
export const countedRolls = z.object({ fullRolls: rolls, partials: z.array(sheets).check(z.maxLength(50)) });
export type CountedRolls = z.infer<typeof countedRolls>;

export const stockMove = z.object({
  moveId: z.string(),
  /** What makes it the only one of its sort: said twice, it counts once. */
  onceKey: z.string(),
  atMs: z.number(),
  saidAtMs: z.number(),
  by: z.nullable(z.string()),
  fromPlace: z.string(),
  toPlace: z.string(),
  /** Full rolls. */
  rolls: z.number(),
  /** Sheets on the one part roll that moved; null: none did. */
  partialSheets: z.nullable(z.number()),
  why: moveWhy,
  /** counted: what is at `toPlace`; the difference comes from `fromPlace`. */
  counted: z.nullable(countedRolls),
  /** takenBack: the move that is taken back. */
  takes: z.nullable(z.string()),
  boothId: z.nullable(z.string()),
  bookingId: z.nullable(z.string()),
  orderId: z.nullable(z.string()),
  note: z.nullable(z.string()),
});
export type StockMove = z.infer<typeof stockMove>;

/** What the ledger says of the full rolls that a booth's case took from the store for a booking. */
export const loadedRolls = z.object({
  moved: z.number(),
  inStore: z.number(),
});
export type LoadedRolls = z.infer<typeof loadedRolls>;

/** How many it is to have taken; 0: none, or they were put back. */
export const loadedInput = z.object({ rolls });

/** A move as a person writes it. */
export const moveInput = z
  .object({
    onceKey: name,
    /** null: just now. */
    atMs: z._default(z.nullable(z.int()), null),
    fromPlace: stockPlace,
    toPlace: stockPlace,
    rolls,
    partialSheets: z._default(z.nullable(sheets), null),
    why: z.enum(["bought", "loaded", "returned", "used", "corrected", "lost"]),
    note: z._default(note, null),
  })
  .check(
    z.refine((move) => move.fromPlace !== move.toPlace, {
      path: ["toPlace"],
      error: "it comes from there already",
    }),
    z.refine((move) => (move.partialSheets === null ? move.rolls > 0 : move.rolls === 0), {
      path: ["rolls"],
      error: "write full rolls, or the sheets of one part roll",
    }),
  );
export type MoveInput = z.infer<typeof moveInput>;

/** What a person counted at a place. */
export const countInput = z.object({
  onceKey: name,
  place: stockPlace.check(
    z.refine((place) => /^(store|case:|event:)/.test(place), "nobody can count rolls there"),
  ),
  fullRolls: rolls,
  partials: z._default(z.array(sheets).check(z.maxLength(50)), []),
  note: z._default(note, null),
});

export const orderInput = z.object({
  onceKey: name,
  rolls: rolls.check(z.gte(1)),
  expectedAtMs: z._default(z.nullable(z.int()), null),
  note: z._default(note, null),
});

/** What is at one place; `missing`: part rolls that left it though none was known to be there. */
export const placeStock = z.object({
  place: z.string(),
  /** Below 0: more left it than anybody wrote down. */
  fullRolls: z.number(),
  partials: z.array(z.number()),
  missing: z.array(z.number()),
});
export type PlaceStock = z.infer<typeof placeStock>;

export const mediaOrder = z.object({
  orderId: z.string(),
  rolls: z.number(),
  orderedAtMs: z.number(),
  expectedAtMs: z.nullable(z.number()),
  note: z.nullable(z.string()),
  arrivedRolls: z.number(),
  /** When the last of it came; null: rolls are still to come. */
  arrivedAtMs: z.nullable(z.number()),
});
export type MediaOrder = z.infer<typeof mediaOrder>;

/** What one coming event is expected to use, in rolls. */
export const eventUse = z.object({
  bookingId: z.string(),
  openAtMs: z.number(),
  mean: z.number(),
  /** Nineteen in twenty such events use no more. */
  high: z.number(),
});
export type EventUse = z.infer<typeof eventUse>;

export const stockAdvice = z.object({
  /** Chance of not running out before the order comes. */
  serviceLevel: z.number(),
  /** Full rolls at hand and on order. */
  atHand: z.number(),
  onOrder: z.number(),
  /** The latest day for an order; null: none is needed as far as is looked ahead. */
  orderByAtMs: z.nullable(z.number()),
  isLate: z.boolean(),
  /** Rolls to order then; 0 without an order. */
  rolls: z.number(),
  /** Rolls that must be at hand or on order today to be safe until an order made today comes. */
  neededNow: z.number(),
  /** How far is looked ahead. */
  untilAtMs: z.number(),
  /** Opening of the first event that what is on order may come too late for; null: none. */
  shortAtMs: z.nullable(z.number()),
  lead: z.object({ meanDays: z.number(), sdDays: z.number(), orders: z.number() }),
  /** What a week used lately; null: too few weeks to say. */
  weekly: z.nullable(z.object({ mean: z.number(), sd: z.number(), weeks: z.number() })),
});
export type StockAdvice = z.infer<typeof stockAdvice>;

/** A line of the ledger as it is shown. */
export const moveLine = z.extend(stockMove, {
  isTakenBack: z.boolean(),
  /** Worked out from what was said at the booth; it is taken back there. */
  isDerived: z.boolean(),
  /** counted: full rolls found more (or fewer, below 0) than the ledger had. */
  found: z.nullable(z.number()),
});
export type MoveLine = z.infer<typeof moveLine>;

export const stockView = z.object({
  places: z.array(placeStock),
  totals: z.object({ bought: z.number(), used: z.number(), lost: z.number(), unexplained: z.number() }),
  orders: z.array(mediaOrder),
  moves: z.array(moveLine),
  /** Asks for the page after this one; null: there are no older moves. */
  olderBefore: z.nullable(z.string()),
  events: z.array(eventUse),
  /** null: it is not known how many rolls there are, as nobody counted or bought any, or more are used than came. */
  advice: z.nullable(stockAdvice),
});
export type StockView = z.infer<typeof stockView>;

/** What is read from a file before anything is kept. */
export const fileRow = z.object({
  line: z.number(),
  does: z.enum(["new", "change", "same", "skipped"]),
  text: z.string(),
});
export type FileRow = z.infer<typeof fileRow>;

export const fileProblem = z.object({
  line: z.number(),
  column: z.nullable(z.string()),
  sentence: z.string(),
});
export type FileProblem = z.infer<typeof fileProblem>;

export const fileRead = z.object({
  counts: z.object({ new: z.number(), change: z.number(), same: z.number(), skipped: z.number() }),
  /** The first of them. */
  rows: z.array(fileRow),
  problems: z.array(fileProblem),
  problemCount: z.number(),
  /** False after a look, and wherever there is a problem: then nothing of the file was kept. */
  isKept: z.boolean(),
});
export type FileRead = z.infer<typeof fileRead>;

/** What to buy for the last weeks of a season. */
export const seasonEnd = z.object({
  rolls: z.number(),
  /** Chance that what is then there is enough. */
  enoughShare: z.number(),
  meanUse: z.number(),
  highUse: z.number(),
});
export type SeasonEnd = z.infer<typeof seasonEnd>;
