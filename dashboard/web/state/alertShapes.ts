import { alertStory } from "@boothward/shared-types/alertStory";
import { reachView, toldLine } from "@boothward/shared-types/told";
import { alertView } from "@boothward/shared-types/view";
import * as z from "zod/mini";

/** Answers of the HTTP side about alerts and about how people are reached. */
export const alertList = z.object({ alerts: z.array(alertStory) });
/** null: it is over and seen to. */
export const answeredAlert = z.object({ alert: z.nullable(alertView) });

export const reachList = z.object({ reaches: z.array(reachView) });
export const reachKey = z.object({ publicKey: z.string() });
/** A webhook's secret is told once, when it is made. */
export const madeReach = z.object({ reachId: z.string(), secret: z.optional(z.string()) });
export const testBegun = z.object({ noticeId: z.string() });

const delivery = z.pick(toldLine, {
  ...{ way: true, label: true, state: true, lastSaid: true, takenAtMs: true, arrivedAtMs: true },
});
export type Delivery = z.infer<typeof delivery>;
export const testSeen = z.object({ deliveries: z.array(delivery) });

/** What the address that the dashboard is called by allows. */
export const abilities = z.object({
  origin: z.nullable(z.string()),
  isPublic: z.enum(["yes", "no", "unknown"]),
});
export type Abilities = z.infer<typeof abilities>;

const pass = z.object({
  passId: z.string(),
  name: z.string(),
  bookingIds: z.array(z.string()),
  endsAtMs: z.number(),
  devices: z.array(z.object({ device: z.nullable(z.string()), createdAtMs: z.number() })),
});
export type PassEntry = z.infer<typeof pass>;
export const passList = z.object({ passes: z.array(pass) });
export const madePass = z.object({ passId: z.string(), path: z.string(), endsAtMs: z.number() });
export type MadePass = z.infer<typeof madePass>;
export const joined = z.object({ name: z.string(), endsAtMs: z.number() });
