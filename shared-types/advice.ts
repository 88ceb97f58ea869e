import * as z from "zod/mini";

/** What follows from the demand forecast of one booth: when to change the roll, what saves paper, how long guests wait. */

/** What one moment to change the roll costs, on average. */
export const changeCost = z.object({
  /** When the roll would be changed. */
  atMs: z.number(),
  /** Groups of guests that find the booth busy with the change. */
  groupsDelayed: z.number(),
  /** Sheets of the old roll that are set aside, to be used up at another event. */
  sheetsSetAside: z.number(),
});
export type ChangeCost = z.infer<typeof changeCost>;

/** Weighing the moment to change the roll. Both costs are shown, the person decides. */
export const changeAdvice = z.object({
  /** The moment that is advised, in a lull where there is one. */
  advised: changeCost,
  /** Waiting until the roll is empty. */
  atEmpty: changeCost,
  /** The quiet stretch that the advised moment lies in; null: there is none before the roll is empty. */
  lull: z.nullable(z.object({ fromAtMs: z.number(), toAtMs: z.number() })),
  /** Chance that the roll is empty before the advised moment. */
  emptyBeforeChance: z.number(),
});
export type ChangeAdvice = z.infer<typeof changeAdvice>;

/** What giving one print a session from some moment on would do for the loaded roll and the spares aboard. */
export const rationing = z.object({
  /** Chance that all that is aboard lasts to the close, if it begins now. */
  lastsChanceNow: z.number(),
  /** The latest moment to begin that keeps the risk at `riskKept`; null: not even now does. */
  latestAtMs: z.nullable(z.number()),
  riskKept: z.number(),
});
export type Rationing = z.infer<typeof rationing>;

/** Rolls for the rest of the booking, beside the loaded one. */
export const rollsToClose = z.object({
  /** Whole rolls needed so that 99 nights in 100 have enough, waste at changes included. */
  needed: z.number(),
  /** Spares aboard; null: not known. */
  spares: z.nullable(z.number()),
  /** Chance that what is loaded and the spares last to the close; null: spares not known. */
  lastsChance: z.nullable(z.number()),
});
export type RollsToClose = z.infer<typeof rollsToClose>;

/** How long a group that comes now waits, in ms. */
export const waits = z.object({
  /** From the end of its own session until its prints are in its hands. */
  printMs: z.number(),
  /** For the booth itself; null: nothing shows how long a session takes. */
  boothMs: z.nullable(z.number()),
});
export type Waits = z.infer<typeof waits>;
