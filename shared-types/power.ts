import * as z from "zod/mini";

/** Where the current of a booth comes from, through what cord, and what hangs on it. */

/** Flexible cords by their conductors, American gauge and metric cross-section. */
export const cordSize = z.enum([
  ...["18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG"],
  ...["0.75 mm2", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2"],
] as const);
export type CordSize = z.infer<typeof cordSize>;

export const powerPlan = z.object({
  source: z.enum(["mains", "generator", "battery"]),
  volts: z.number().check(z.gte(90), z.lte(260)),
  /** What the breaker is marked with; null: not known. */
  breakerA: z.nullable(z.number().check(z.gte(1), z.lte(125))),
  /** null: plugged in without one. */
  cord: z.nullable(z.object({ lengthM: z.number().check(z.gte(0), z.lte(200)), size: cordSize })),
  loads: z
    .array(
      z.object({
        what: z.string().check(z.trim(), z.minLength(1), z.maxLength(60)),
        watts: z.number().check(z.gte(0), z.lte(20_000)),
      }),
    )
    .check(z.maxLength(20)),
  /** battery: what it holds, as marked. */
  batteryWh: z.nullable(z.number().check(z.gt(0), z.lte(100_000))),
});
export type PowerPlan = z.infer<typeof powerPlan>;

/** `near`: more than is good for hours on end; `over`: more than may be. */
export const powerLevel = z.enum(["fine", "near", "over"]);
export type PowerLevel = z.infer<typeof powerLevel>;

/** What comes of a power plan. */
export const powerSum = z.object({
  watts: z.number(),
  amps: z.number(),
  breaker: z.nullable(
    z.object({
      level: powerLevel,
      /** Of what is marked on it. */
      sharePct: z.number(),
      /** What may run on it for hours. */
      continuousA: z.number(),
      /** Room under that; below 0 it is too much by so much. */
      freeWatts: z.number(),
    }),
  ),
  cord: z.nullable(
    z.object({
      dropV: z.number(),
      dropPct: z.number(),
      dropLevel: powerLevel,
      /** The longest such cord at this load for a drop of 3 %; null: nothing hangs on it. */
      longestM: z.nullable(z.number()),
      /** What its conductors carry. */
      carriesA: z.number(),
      isOverloaded: z.boolean(),
    }),
  ),
  battery: z.nullable(
    z.object({
      /** null: nothing hangs on it. */
      runsHours: z.nullable(z.number()),
      /** Whether that is the open hours and an hour before; null: not known how long. */
      isEnough: z.nullable(z.boolean()),
    }),
  ),
});
export type PowerSum = z.infer<typeof powerSum>;
