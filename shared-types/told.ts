import * as z from "zod/mini";
import { role, severity } from "./words.ts";

/**
 * The story of notices: who was told, by which way, and what came of it. What people write about it is in
 * `notices.ts`; whoever only shows the story need not carry what checks addresses.
 */

/** By what a person can be reached. */
export const reachWay = z.enum(["push", "email", "webhook", "http"]);
export type ReachWay = z.infer<typeof reachWay>;

/** Why there is a notice. `own`: the dashboard speaks of itself. */
export const noticeWhy = z.enum(["raised", "worse", "repeat", "escalated", "digest", "test", "own"]);
export type NoticeWhy = z.infer<typeof noticeWhy>;

/**
 * Where one notice on one way to one person stands. `waiting`: to be sent, or sent again. `gathered`: it goes out
 * with others as one. The rest is final: `taken` by the way's server, `digested` into another notice, `refused`,
 * `gone` with the device, `expired` because nobody took it in time, `over` before it could be sent.
 */
export const deliveryState = z.enum([
  "waiting",
  "gathered",
  "taken",
  "digested",
  "refused",
  "gone",
  "expired",
  "over",
]);
export type DeliveryState = z.infer<typeof deliveryState>;

/** How a notice ended, over all its ways; `nobody`: there was no way to anybody, or each of them failed. */
export const noticeEnd = z.enum(["told", "nobody", "over", "digested", "expired"]);
export type NoticeEnd = z.infer<typeof noticeEnd>;

/** A way to reach oneself, as a page shows it. */
export const reachView = z.object({
  reachId: z.string(),
  way: reachWay,
  label: z.string(),
  /** Where it leads, without what is secret in it: a host, a mail address. */
  to: z.string(),
  createdAtMs: z.number(),
  lastTakenAtMs: z.nullable(z.number()),
  /** Since when nothing was taken; null: all is well. */
  troubleFromAtMs: z.nullable(z.number()),
  lastSaid: z.nullable(z.string()),
});
export type ReachView = z.infer<typeof reachView>;

/** One line of who was told: a notice on one way, or a notice for which there was no way. */
export const toldLine = z.object({
  alertId: z.nullable(z.string()),
  noticeId: z.string(),
  atMs: z.number(),
  why: noticeWhy,
  toRole: role,
  severity,
  text: z.string(),
  /** null: there was no way to anybody. */
  deliveryId: z.nullable(z.string()),
  way: z.nullable(reachWay),
  label: z.nullable(z.string()),
  state: z.union([deliveryState, noticeEnd, z.literal("due")]),
  lastSaid: z.nullable(z.string()),
  takenAtMs: z.nullable(z.number()),
  arrivedAtMs: z.nullable(z.number()),
});
export type ToldLine = z.infer<typeof toldLine>;
