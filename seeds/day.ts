import { boothBox, noStanding, standing } from "@boothward/shared-types";
import * as z from "zod";

/**
 * An invented event day as plain data: booths, bookings, guests, air, and what goes wrong when.
 *
 * All minutes are relative to the moment the day is started ("now"): negative ones have passed already
 * and are sent as backlog, the others are lived through.
 */

const minute = z
  .number()
  .min(-24 * 60, "must be within a day of now")
  .max(24 * 60, "must be within a day of now");
const lengthMin = z
  .number()
  .positive("must be longer than nothing")
  .max(24 * 60);
const celsius = z.number().min(-30).max(70);
const name = z.string().trim().min(1, "must not be empty").max(80);

/** Points `[minute, height]` in rising order. */
const shapeOf = (height: z.ZodNumber) =>
  z
    .array(z.tuple([minute, height]))
    .min(1, "needs at least one point")
    .refine(
      (points) => points.every(([atMin], i) => i === 0 || atMin > (points[i - 1]?.[0] ?? 0)),
      "its minutes must rise from point to point",
    );

const incident = z.discriminatedUnion("kind", [
  /** While the first sheet after `atMin` is fed. */
  z.object({ kind: z.literal("jam"), atMin: minute, forMin: lengthMin }),
  z.object({ kind: z.literal("linkCut"), atMin: minute, forMin: lengthMin }),
  /** The attendant takes the roll off and fits a full kit; the printer is open for `forMin`. */
  z.object({ kind: z.literal("rollChange"), atMin: minute, forMin: lengthMin }),
  /** Shade is put up: this share of the sun's heat stays out from then on. */
  z.object({ kind: z.literal("shade"), atMin: minute, keepsOut: z.number().min(0).max(1) }),
]);
export type Incident = z.infer<typeof incident>;

const booking = z
  .object({
    client: name,
    place: name,
    eventKind: name,
    guests: z.int().min(1),
    attendant: name,
    openMin: minute,
    closeMin: minute,
    sheetsLoaded: z.int().min(1),
    spareRolls: z.int().min(0),
    standing: z.optional(standing).default(noStanding),
  })
  .refine(({ openMin, closeMin }) => closeMin > openMin, {
    path: ["closeMin"],
    error: "must be after openMin",
  });

const guests = z.object({
  /** Parties that come to the booth, an hour. */
  perHour: shapeOf(z.number().min(0).max(200)),
  /** Shortest and longest time in the booth, s. */
  poseS: z.tuple([z.number().min(10), z.number().max(600)]),
  /** Time between one party leaving and the next sitting, s. */
  turnS: z.number().min(5).max(300),
});

const prints = z.object({
  /** 8 to 20 s a sheet: common practice of the trade, no source. */
  perSheetS: z.number().min(8, "no printer is that fast").max(20, "no printer is that slow"),
  /** Pieces a party takes, each with its weight. */
  copies: z.array(z.tuple([z.int().min(1).max(12), z.number().positive()])).min(1),
  /** 4x6 is 1, a strip out of a pair 0.5, 6x8 is 2. */
  pitchesACopy: z.union([z.literal(0.5), z.literal(1), z.literal(2)], "must be 0.5, 1 or 2"),
  queue: name,
});

/** How the printer says what is left: in sheets, in steps of so many percent, or (null) not at all. */
const meter = z.discriminatedUnion("kind", [
  z.object({ kind: z.literal("sheets") }),
  z.object({ kind: z.literal("percent"), stepPct: z.union([z.literal(5), z.literal(10)]) }),
]);

const air = z.object({
  sensor: name,
  /** At the start of the scenario. */
  startC: celsius,
  outsideC: shapeOf(celsius),
  /** What printer and computer add to the air outside, settled. */
  ownHeatC: z.number().min(0).max(30),
  /** What the sun on the roof adds, settled; empty of sun indoors. */
  sunC: shapeOf(z.number().min(0).max(30)),
  /** Time after which two thirds of a change have arrived. */
  settleMin: z.number().min(1).max(240),
  /** Whether there is a thermometer outside too. */
  isOutsideRead: z.boolean(),
});

const booth = z
  .object({
    name,
    isTrailer: z.boolean(),
    kitSheets: z.int().min(50).max(1000),
    limitC: celsius,
    box: z.nullable(boothBox).default(null),
    booking,
    guests,
    prints,
    meter: meter.nullable(),
    air,
    /** False: whoever fits a roll forgets to say so, and the booth has to find out by itself. */
    saysRolls: z.boolean().default(true),
    incidents: z.array(incident),
  })
  .refine((made) => made.booking.sheetsLoaded <= made.kitSheets, {
    path: ["booking", "sheetsLoaded"],
    error: "must not be more than a full kit",
  });
export type DayBooth = z.infer<typeof booth>;

const day = z.object({
  /** Shown wherever the day is: it must say that it is invented. */
  name,
  /** When the attendants arrive and the agents are switched on. */
  startMin: minute.max(0, "must not be after now"),
  /** Sentences: what the pages show as soon as the backlog is in. */
  atOnce: z.array(z.string().trim().min(1)),
  booths: z.array(booth).min(1, "needs at least one booth").refine(haveOwnNames, "two booths have one name"),
});
export type Day = z.infer<typeof day>;

function haveOwnNames(booths: readonly { name: string }[]): boolean {
  return new Set(booths.map((one) => one.name)).size === booths.length;
}

/** Reads a day; throws one Error that names the file, each wrong field and the value found there. */
export function parseDay(found: unknown, file: string): Day {
  const parsed = day.safeParse(found);
  if (parsed.success) return parsed.data;
  const lines = parsed.error.issues.map((issue) => {
    const value = JSON.stringify(valueAt(found, issue.path)) ?? "missing";
    return `  ${issue.path.map(String).join(".") || "the day"}: ${issue.message} (it is ${value.slice(0, 80)})`;
  });
  throw new Error(`${file} is not a day that can be played:\n${lines.join("\n")}`);
}

function valueAt(found: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (at, key) => (typeof at === "object" && at !== null ? Reflect.get(at, key) : undefined),
    found,
  );
}
