import * as z from "zod/mini";
import { matter, role, severity } from "./words.ts";

/**
 * How people are told: the ways to reach them, what they chose about it, and the story of each notice. The
 * forms, the routes and the store use the same words.
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

const minutes = z.int().check(z.gte(1), z.lte(240));

/** How alerts reach people, as the business chose it. */
export const noticeSettings = z.object({
  /** Nobody took it: after so many minutes the owners are told as well. */
  escalateAfterMin: z._default(z.object({ actNow: z._default(minutes, 3), plan: z._default(minutes, 15) }), {
    actNow: 3,
    plan: 15,
  }),
  /** Nobody took a "now": said again every so many minutes. */
  repeatEveryMin: z._default(minutes, 10),
  rulesOff: z._default(z.array(matter).check(z.maxLength(40)), []),
});
export type NoticeSettings = z.infer<typeof noticeSettings>;
