import type { AlertStory } from "@boothward/shared-types/alertStory";
import type { ReachView } from "@boothward/shared-types/notices";
import { alertView } from "@boothward/shared-types/view";
import { role, severity } from "@boothward/shared-types/words";
import * as z from "zod/mini";

// The page's own shapes of these answers, held to the shared types: the shared schemas check addresses and
// mail, and what checks those would weigh on the first view.

/** Answers of the HTTP side about alerts and about how people are reached. */
const reachWay = z.enum(["push", "email", "webhook", "http"]);

const toldLine = z.object({
  alertId: z.nullable(z.string()),
  noticeId: z.string(),
  atMs: z.number(),
  why: z.enum(["raised", "worse", "repeat", "escalated", "digest", "test", "own"]),
  toRole: role,
  severity,
  text: z.string(),
  deliveryId: z.nullable(z.string()),
  way: z.nullable(reachWay),
  label: z.nullable(z.string()),
  state: z.enum([
    ...["waiting", "gathered", "taken", "digested", "refused", "gone", "expired", "over"],
    ...["told", "nobody", "due"],
  ] as const),
  lastSaid: z.nullable(z.string()),
  takenAtMs: z.nullable(z.number()),
  arrivedAtMs: z.nullable(z.number()),
});

const alertStory: z.ZodMiniType<AlertStory> = z.object({
  alert: alertView,
  boothName: z.string(),
  closedAtMs: z.nullable(z.number()),
  log: z.array(
    z.object({
      atMs: z.number(),
      step: z.string(),
      state: z.string(),
      severity: z.string(),
      by: z.nullable(z.string()),
      device: z.nullable(z.string()),
    }),
  ),
  told: z.array(toldLine),
});
export const alertList = z.object({ alerts: z.array(alertStory) });
/** null: it is over and seen to. */
export const answeredAlert = z.object({ alert: z.nullable(alertView) });

const reachView: z.ZodMiniType<ReachView> = z.object({
  reachId: z.string(),
  way: reachWay,
  label: z.string(),
  to: z.string(),
  createdAtMs: z.number(),
  lastTakenAtMs: z.nullable(z.number()),
  troubleFromAtMs: z.nullable(z.number()),
  lastSaid: z.nullable(z.string()),
});
export const reachList = z.object({ reaches: z.array(reachView) });
export const reachKey = z.object({ publicKey: z.string() });
/** A webhook's secret is told once, when it is made. */
export const madeReach = z.object({ reachId: z.string(), secret: z.optional(z.string()) });
export const testBegun = z.object({ noticeId: z.string() });

const delivery = z.object({
  way: z.nullable(reachWay),
  label: z.nullable(z.string()),
  state: z.string(),
  lastSaid: z.nullable(z.string()),
  takenAtMs: z.nullable(z.number()),
  arrivedAtMs: z.nullable(z.number()),
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
