import * as z from "zod/mini";
import { isTimeZone } from "./booking.ts";
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

const label = z.string().check(z.trim(), z.minLength(1), z.maxLength(80));
const address = z.string().check(z.maxLength(2_000), z.url({ protocol: /^https?$/ }));
const secureAddress = z.string().check(z.maxLength(2_000), z.url({ protocol: /^https$/ }));
const base64Url = /^[A-Za-z0-9_-]+=*$/;
const line = z.string().check(z.maxLength(500), z.regex(/^[^\r\n]*$/, "may not hold a line break"));

/** What a browser's push subscription says (W3C Push API, PushSubscriptionJSON). */
export const pushBody = z.object({
  endpoint: secureAddress,
  keys: z.object({
    p256dh: z.string().check(z.minLength(80), z.maxLength(100), z.regex(base64Url)),
    auth: z.string().check(z.minLength(20), z.maxLength(40), z.regex(base64Url)),
  }),
});
export type PushBody = z.infer<typeof pushBody>;

export const emailBody = z.object({ to: z.email().check(z.maxLength(200)) });
export type EmailBody = z.infer<typeof emailBody>;

export const webhookBody = z.object({ url: address });

/** A call of one's own making; `{text}` and the like stand for what is filled in, escaped for where it stands. */
export const httpBody = z.object({
  method: z.enum(["GET", "POST", "PUT"]),
  url: z.string().check(z.maxLength(2_000)),
  headers: z
    .array(z.object({ name: z.string().check(z.regex(/^[A-Za-z0-9-]{1,60}$/)), content: line }))
    .check(z.maxLength(12)),
  form: z.enum(["json", "form", "text"]),
  template: z.string().check(z.maxLength(4_000)),
});
export type HttpBody = z.infer<typeof httpBody>;

/** A new way to reach oneself. */
export const reachForm = z.discriminatedUnion("way", [
  z.object({ way: z.literal("push"), label, body: pushBody }),
  z.object({ way: z.literal("email"), label, body: emailBody }),
  z.object({ way: z.literal("webhook"), label, body: webhookBody }),
  z.object({ way: z.literal("http"), label, body: httpBody }),
]);
export type ReachForm = z.infer<typeof reachForm>;

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

/** What a device gets and shows; `secret` is what it says to tell that it came. */
export const pushMessage = z.object({
  noticeId: z.string(),
  deliveryId: z.string(),
  secret: z.string(),
  alertId: z.nullable(z.string()),
  boothId: z.nullable(z.string()),
  severity,
  title: z.string(),
  body: z.string(),
  path: z.string(),
});
export type PushMessage = z.infer<typeof pushMessage>;

const clockTime = z.string().check(z.regex(/^([01]\d|2[0-3]):[0-5]\d$/, "is no time like 22:00"));
const minutes = z.int().check(z.gte(1), z.lte(240));

/** Hours in which only "now" is said; the rest waits for their end. */
export const quietHours = z
  .object({
    from: clockTime,
    to: clockTime,
    zone: z.string().check(z.maxLength(60), z.refine(isTimeZone, "is not a time zone")),
  })
  .check(z.refine(({ from, to }) => from !== to, { path: ["to"], error: "is when they begin" }));
export type QuietHours = z.infer<typeof quietHours>;

/** The server that sends the business's mail. `startTls` insists on it; `open` is for a server on this computer. */
export const mailServer = z.object({
  host: z.string().check(z.trim(), z.minLength(1), z.maxLength(200)),
  port: z.int().check(z.gte(1), z.lte(65_535)),
  security: z.enum(["tls", "startTls", "open"]),
  user: z.nullable(z.string().check(z.minLength(1), z.maxLength(200))),
  from: z.email().check(z.maxLength(200)),
});
export type MailServer = z.infer<typeof mailServer>;

/** An address elsewhere that raises the alarm when it is no longer called. */
export const deadManPing = z.object({ url: address, everyMin: minutes });

/** How alerts reach people, as the business and (`quietHours`) the person who asks chose it. */
export const noticeSettings = z.object({
  /** Nobody took it: after so many minutes the owners are told as well. */
  escalateAfterMin: z._default(z.object({ actNow: z._default(minutes, 3), plan: z._default(minutes, 15) }), {
    actNow: 3,
    plan: 15,
  }),
  /** Nobody took a "now": said again every so many minutes. */
  repeatEveryMin: z._default(minutes, 10),
  rulesOff: z._default(z.array(matter).check(z.maxLength(40)), []),
  mail: z._default(z.nullable(mailServer), null),
  ping: z._default(z.nullable(deadManPing), null),
  quietHours: z._default(z.nullable(quietHours), null),
});
export type NoticeSettings = z.infer<typeof noticeSettings>;

/** What the settings page is given: never the mail server's password, only whether there is one. */
export const noticeSettingsView = z.extend(noticeSettings, { hasMailPassword: z.boolean() });
export type NoticeSettingsView = z.infer<typeof noticeSettingsView>;

/** What the settings page sends; a password that is left out stays as it is, null takes it away. */
export const noticeSettingsForm = z.extend(noticeSettings, {
  mailPassword: z.optional(z.nullable(z.string().check(z.minLength(1), z.maxLength(200)))),
});
export type NoticeSettingsForm = z.infer<typeof noticeSettingsForm>;
