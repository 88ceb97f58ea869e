import * as z from "zod/mini";
import { isTimeZone } from "./booking.ts";
import { matter, severity } from "./words.ts";

/**
 * What people write about how they are told: their ways, and what they chose. The forms, the routes and the store
 * use the same words.
 */

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
  /** Nobody took a "now": said again after so many minutes, and each time after twice as long. */
  repeatAfterMin: z._default(minutes, 10),
  /** What notices speak; a page speaks what its own device is set to. */
  units: z._default(z.enum(["metric", "us"]), "metric"),
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
