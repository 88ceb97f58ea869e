import * as z from "zod";
import { faultWord, peerPart, pitchBasis, printerStateWord, readiness, role, sessionBasis } from "./words.ts";

/**
 * What an agent puts in its outbox and sends: readings and facts, one flat object each.
 *
 * A `fact` is counted and never thinned; a `reading` is what a source saw and may be thinned when the
 * outbox is full. Times inside an item are lengths back from the item's own `atMs`, never instants, so
 * that correcting a wrong clock corrects them too.
 */

const sourceName = z.string().min(1).max(80);
const label = z.string().max(200);
const count = z.int().min(0).max(1_000_000);
const lengthMs = z.number().min(0);
const pct = z.number().min(0).max(100);

/** What every item carries. `atMs` and `monoMs` are the agent's own two clocks at the same moment. */
const stamp = {
  seq: z.int().min(1),
  /** The agent's wall clock, Unix ms; may be wrong, is corrected at ingest. */
  atMs: z.number(),
  /** The agent's steady clock, ms since its boot id began. */
  monoMs: z.number(),
  source: sourceName,
};

const fact = { ...stamp, class: z.literal("fact") };
const reading = { ...stamp, class: z.literal("reading") };

/** Guests at the booth once; `atMs` is when they finished. */
export const sessionFact = z.object({
  ...fact,
  kind: z.literal("session"),
  sessionId: z.string().min(1).max(80),
  durationMs: lengthMs.nullable(),
  layouts: count.nullable(),
  shots: count.nullable(),
  /** What the session was seen by; the authorities are in this order. */
  basis: sessionBasis,
});

/** Guests began; only a booth program that calls the hook says so. */
export const sessionBegunFact = z.object({
  ...fact,
  kind: z.literal("sessionBegun"),
  sessionId: z.string().min(1).max(80),
});

/** Pieces in guests' hands, one print job. `pitches` is the media it used, copies included. */
export const printFact = z.object({
  ...fact,
  kind: z.literal("print"),
  printId: z.string().min(1).max(120),
  copies: count,
  /** 4x6 lengths of paper and ribbon used, copies included. */
  pitches: z.number().min(0).max(100_000),
  queue: label.nullable(),
  /** What it was seen by; agents of before this field counted jobs. */
  basis: z.enum(["jobs", "layouts", "hook"]).default("jobs"),
  /** The session it belongs to, where the source knows. */
  sessionId: z.string().min(1).max(80).nullable().default(null),
  /** Size of one piece in inches, the shorter side first, such as "4x6"; null: the source does not know it. */
  size: z.string().max(20).nullable().default(null),
});

/**
 * What a counter of the printer or its spooler shows of all it ever printed, in pitches, once at start and
 * whenever it moves. It may begin again at 0.
 */
export const counterFact = z.object({
  ...fact,
  kind: z.literal("counter"),
  queue: label,
  pitchesEver: z.number().min(0).max(4_294_967_295),
});

/** The printer's state and reasons, whenever either changes, and once at start. */
export const printerStateFact = z.object({
  ...fact,
  kind: z.literal("printerState"),
  queue: label,
  /** null: the printer does not say. */
  state: z.nullable(printerStateWord),
  /** IPP's printer-state-reasons, suffix kept, unknown keywords too; empty for `none`. */
  reasons: z.array(z.string().max(120)).max(40),
  message: label.nullable(),
});

/** What a meter in the printer says is left, whenever it changes. Never thinned: it may be the last for a week. */
export const mediaFact = z.object({
  ...fact,
  kind: z.literal("media"),
  queue: label,
  /** The part as the printer names it, "Dye ribbon", "Paper", or "kit" for both together. */
  part: label,
  sheetsLeft: z.number().min(0).max(100_000).nullable(),
  leftPct: pct.nullable(),
  /** How long before `atMs` the printer itself took this figure; null: it does not say. */
  ageMs: lengthMs.nullable(),
});

/** A matched roll of paper and ribbon was put in, holding this many sheets (4x6 lengths). */
export const rollFittedFact = z.object({
  ...fact,
  kind: z.literal("rollFitted"),
  sheets: z.int().min(1).max(5_000),
  by: label.nullable(),
});

/** A roll came off before its end and stays aboard; null: nobody counted what is on it. */
export const rollTakenOffFact = z.object({
  ...fact,
  kind: z.literal("rollTakenOff"),
  sheetsLeft: z.int().min(0).max(5_000).nullable(),
  by: label.nullable(),
});

/** A person says that no roll was fitted, though it looked so. */
export const rollDeniedFact = z.object({ ...fact, kind: z.literal("rollDenied"), by: label });

/** Sheets that went to no guest: at a change, as a test, or spoilt. */
export const wasteFact = z.object({
  ...fact,
  kind: z.literal("waste"),
  pitches: z.int().min(1).max(1_000),
  cause: z.enum(["change", "test", "spoilt"]),
  by: label,
});

/** A person takes back an earlier word of a person, named by its boot and number. */
export const takenBackFact = z.object({
  ...fact,
  kind: z.literal("takenBack"),
  factBootId: z.string().min(1).max(80),
  factSeq: z.int().min(1),
  by: label,
});

/** From here on sessions and pitches are counted by these, until another such word; null: by the best there is. */
export const authorityFact = z.object({
  ...fact,
  kind: z.literal("authority"),
  sessionsBy: z.nullable(sessionBasis),
  pitchesBy: z.nullable(pitchBasis),
  by: label,
});

/** A person says how many sheets are really left. */
export const correctionFact = z.object({
  ...fact,
  kind: z.literal("correction"),
  sheetsLeft: z.int().min(0).max(5_000),
  by: label,
});

/** A booth moved to another readiness. */
export const readinessFact = z.object({
  ...fact,
  kind: z.literal("readiness"),
  to: readiness,
  by: label.nullable(),
});

/** The close of a booking moved; the booking is named, the instant is true time. */
export const extendedFact = z.object({
  ...fact,
  kind: z.literal("extended"),
  bookingId: z.string(),
  closeAtMs: z.number(),
  by: label,
});

/** On mains or on battery, whenever it changes. */
export const powerFact = z.object({
  ...fact,
  kind: z.literal("power"),
  isOnMains: z.boolean(),
  batteryPct: pct.nullable(),
});

/** Something beside the booth's computer is there or gone, whenever that changes, and once at start. */
export const peerFact = z.object({
  ...fact,
  kind: z.literal("peer"),
  part: peerPart,
  isThere: z.boolean(),
  /** What it is called at the booth, an address or a device's name. */
  name: label.nullable(),
});

/** How the booth's computer is set for the night, whenever it changes, and once at start; null: it cannot be seen. */
export const machineFact = z.object({
  ...fact,
  kind: z.literal("machine"),
  /** A system update waits for a restart. */
  isUpdatePending: z.boolean().nullable(),
  /** On mains it goes to sleep after so many minutes; 0: never. */
  sleepsAfterMin: z.number().min(0).nullable(),
});

/** A test alert came to a person's device by the whole real way. */
export const testHeardFact = z.object({
  ...fact,
  kind: z.literal("testHeard"),
  role,
  /** push, email, webhook, http or page. */
  way: label,
  by: label,
});

/** A line of the opening checks or of the load-out list was ticked, or the tick taken off. */
export const checkFact = z.object({
  ...fact,
  kind: z.literal("check"),
  check: z.string().min(1).max(60),
  isDone: z.boolean(),
  by: label,
});

/** A source lost its value (and why) or has it again (`fault` null). */
export const sourceStateFact = z.object({
  ...fact,
  kind: z.literal("sourceState"),
  fault: z.nullable(faultWord),
  detail: label.nullable(),
});

/** An agent began to run. `scenario` names the invented event day it plays, null on a real booth. */
export const agentStartedFact = z.object({
  ...fact,
  kind: z.literal("agentStarted"),
  version: label,
  platform: label,
  hostName: label,
  scenario: label.nullable(),
});

/** The agent's wall clock jumped against its steady clock by this much. */
export const clockSteppedFact = z.object({ ...fact, kind: z.literal("clockStepped"), stepMs: z.number() });

/** The outbox was full: this many readings, no facts, were let go before this moment. */
export const thinnedFact = z.object({ ...fact, kind: z.literal("thinned"), readings: count });

/** Jobs in the queue, held ones included; null what the queue does not say. */
export const queueReading = z.object({
  ...reading,
  kind: z.literal("queue"),
  queue: label,
  queuedJobs: count.nullable(),
});

/** Air or case temperature at the booth's printer. */
export const insideReading = z.object({
  ...reading,
  kind: z.literal("inside"),
  sensor: label,
  insideC: z.number().min(-80).max(150),
  humidityPct: pct.nullable(),
});

/** Temperature outside the booth. */
export const outsideReading = z.object({
  ...reading,
  kind: z.literal("outside"),
  sensor: label,
  outsideC: z.number().min(-80).max(80),
});

/** The booth computer's own state; null where it has no sensor. */
export const hostReading = z.object({
  ...reading,
  kind: z.literal("host"),
  memoryUsedPct: pct.nullable(),
  loadPct: pct.nullable(),
  processorC: z.number().nullable(),
  diskFreeMb: z.number().min(0).nullable(),
  batteryPct: pct.nullable(),
  networkUp: z.boolean().nullable(),
});

const knownSchemas = [
  sessionFact,
  sessionBegunFact,
  printFact,
  counterFact,
  printerStateFact,
  mediaFact,
  rollFittedFact,
  rollTakenOffFact,
  rollDeniedFact,
  wasteFact,
  takenBackFact,
  correctionFact,
  authorityFact,
  readinessFact,
  extendedFact,
  powerFact,
  peerFact,
  machineFact,
  testHeardFact,
  checkFact,
  sourceStateFact,
  agentStartedFact,
  clockSteppedFact,
  thinnedFact,
  queueReading,
  insideReading,
  outsideReading,
  hostReading,
] as const;

/** Every kind of item this version knows. */
export const knownItem = z.discriminatedUnion("kind", knownSchemas);
export type KnownItem = z.infer<typeof knownItem>;
export type ItemKind = KnownItem["kind"];
export const knownKinds: ReadonlySet<string> = new Set(knownSchemas.map((schema) => schema.shape.kind.value));

/** The stamp of any item, also of a kind this version does not know: such an item is kept whole. */
export const anyItem = z.looseObject({
  ...stamp,
  class: z.enum(["fact", "reading"]),
  kind: z.string().min(1).max(60),
});
export type AnyItem = z.infer<typeof anyItem>;

type WithoutStamp<T> = T extends unknown ? Omit<T, "seq" | "atMs" | "monoMs" | "source"> : never;

/** What a source hands over: an item before the agent stamps it. `agoMs` moves it back from now. */
export type NewItem = WithoutStamp<KnownItem>;

/**
 * An item as the dashboard holds it: `atMs` is corrected to true time.
 *
 * Items are folded in the order (`atMs`, `source`, `seq`, `bootId`), wherever they came from: the boot
 * makes it total, so that live and rebuilt states are the same.
 */
export type StoredItem = KnownItem & {
  readonly boothId: string;
  readonly bootId: string;
  readonly receivedAtMs: number;
};
