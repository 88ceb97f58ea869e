import * as z from "zod/mini";
import { bookingInput } from "./booking.ts";
import { powerSum } from "./power.ts";
import { sunStretch } from "./site.ts";
import { faultWord, readiness } from "./words.ts";

/**
 * What follows from a booking before it begins: its plan, and its opening checks. Numbers and words of code only,
 * the sentences are made in the page.
 */

/** Whole rolls to bring beside what is loaded, and the figures they follow from. */
export const rollsToBring = z.object({
  /** `forEvening` and `reserve` together. */
  bring: z.number(),
  forEvening: z.number(),
  /** Stays at the booth whatever happens. */
  reserve: z.number(),
  /** Sheets that ninety-nine evenings in a hundred like this do not exceed, and that half of them do not. */
  mostSheets: z.number(),
  usualSheets: z.number(),
  kitSheets: z.number(),
  /** What a fitting wastes at most. */
  wasteSheets: z.number(),
  /** On the printer at the opening; null: a roll of those brought is put in. */
  loadedSheets: z.nullable(z.number()),
  /** Spare rolls that the plan lacks; 0: none. */
  short: z.number(),
  basis: z.enum(["learned", "planned", "blind"]),
  /** Earlier evenings of the kind that were looked at. */
  pastEvenings: z.number(),
});
export type RollsToBring = z.infer<typeof rollsToBring>;

/** A tick, by whom and when. */
export const tick = z.object({ by: z.string(), atMs: z.number() });
export type Tick = z.infer<typeof tick>;

/** What goes into the van. */
export const loadItem = z.enum([
  ...["booth", "camera", "screen", "printer", "printerCable", "rolls", "cord", "powerStrip", "cordCovers"],
  ...["generator", "battery", "network", "lights", "backdrop", "greyCard", "cleaning", "spareCables"],
  ...["tools", "tape", "levelling", "awning", "weights", "table", "doorSign", "firstAid", "extinguisher"],
] as const);
export type LoadItem = z.infer<typeof loadItem>;

export const loadLine = z.object({
  item: loadItem,
  /** What it is ticked by. */
  check: z.string(),
  /** How many; null: it goes without saying. */
  count: z.nullable(z.number()),
  tick: z.nullable(tick),
});
export type LoadLine = z.infer<typeof loadLine>;

export const planView = z.object({
  booking: z.intersection(bookingInput, z.object({ bookingId: z.string() })),
  boothName: z.string(),
  rolls: rollsToBring,
  power: z.nullable(powerSum),
  /** Sun on the printer that day; null: it is not known how the booth stands. */
  sun: z.nullable(z.array(sunStretch)),
  loadOut: z.array(loadLine),
});
export type PlanView = z.infer<typeof planView>;

/** A line of the opening checks; some a booth sees by itself, others only a person. */
export const checkName = z.enum([
  ...["powerLocated", "level", "secured", "agentHeard", "onMains", "clock", "disk", "update", "sleep"],
  ...["camera", "printerAnswers", "paper", "paperEnough", "sparesThere", "testPrint", "printSize"],
  ...["whiteBalance", "temperature", "dewPoint", "rulesPosted", "testAlert"],
] as const);
export type CheckName = z.infer<typeof checkName>;

/**
 * `seen` by the booth itself, `ticked` by a person, `toDo`, a `question` that a person settles, or `notPossible` to
 * see here, which a person may settle too.
 */
export const checkState = z.enum(["seen", "ticked", "toDo", "question", "notPossible"]);
export type CheckState = z.infer<typeof checkState>;

export const openingCheck = z.object({
  check: checkName,
  state: checkState,
  /** notPossible: why. */
  fault: z.nullable(faultWord),
  /** ticked: by whom. seen: the person a test alert reached. */
  by: z.nullable(z.string()),
  /** When it was seen or ticked; null: not. */
  atMs: z.nullable(z.number()),
  /** Whatever figures its sentence needs, by name; those that are not known are left out. */
  figures: z.record(z.string(), z.number()),
  /** Words of code beside the figures: printer reasons, names of what is there. */
  details: z.array(z.string()),
});
export type OpeningCheck = z.infer<typeof openingCheck>;

export const checksView = z.object({
  bookingId: z.string(),
  boothId: z.string(),
  boothName: z.string(),
  client: z.string(),
  place: z.string(),
  zone: z.string(),
  openAtMs: z.number(),
  closeAtMs: z.number(),
  /** By when it is to stand ready. */
  readyByAtMs: z.number(),
  checks: z.array(openingCheck),
  /** null: nobody said yet where the booth stands. */
  readiness: z.nullable(z.object({ to: readiness, atMs: z.number() })),
  /** What may be said next. */
  next: z.array(readiness),
});
export type ChecksView = z.infer<typeof checksView>;
