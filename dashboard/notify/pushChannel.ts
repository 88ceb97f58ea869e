import { createHash } from "node:crypto";
import { pushBody, type PushMessage, type Severity } from "@boothward/shared-types";
import webPush from "web-push";
import type { CallOut } from "./callOut.ts";
import type { Channel, Message } from "./channel.ts";
import type { PushKeys } from "./ownKeys.ts";
import { resultOfCall } from "./resultOfCall.ts";

// Source: RFC 8030 section 5.3: "high" wakes a phone on battery for what cannot wait; "normal" waits for it to wake.
const urgencies: Record<Severity, "high" | "normal" | "low"> = {
  actNow: "high",
  plan: "normal",
  note: "low",
};
/** For so long a push service keeps it for a phone that is off: as long as we would try (RFC 8030 section 5.2). */
const ttlSeconds: Record<Severity, number> = { actNow: 30 * 60, plan: 2 * 3_600, note: 6 * 3_600 };

/** RFC 8292 section 2: at most 24 hours ahead; half of it leaves room for clocks that differ. */
const vapidMs = 12 * 3_600_000;

/** Web push (RFC 8030), encrypted for the one browser (RFC 8291), signed with this dashboard's key (RFC 8292). */
export function pushChannel(callOut: CallOut, keys: PushKeys, subject: () => Promise<string>): Channel {
  return {
    async send(body, message, atMs) {
      const { endpoint, keys: browser } = pushBody.parse(body);
      const { severity, why } = message.notice;
      const payload = JSON.stringify(payloadOf(message));
      const { cipherText } = webPush.encrypt(browser.p256dh, browser.auth, payload, "aes128gcm");
      const called = await callOut({
        method: "POST",
        url: endpoint,
        headers: {
          ...vapidHeaders(endpoint, keys, await subject(), atMs),
          "content-type": "application/octet-stream",
          "content-encoding": "aes128gcm",
          ttl: String(ttlSeconds[severity]),
          urgency: why === "test" ? "high" : urgencies[severity],
          topic: topicOf(message),
        },
        body: cipherText,
      });
      // RFC 8030 section 7.3: 404 for a subscription that has expired, 410 (in practice) for one that is no more.
      return resultOfCall(called, atMs, (status) => (status === 404 || status === 410 ? "gone" : "refused"));
    },
  };
}

function vapidHeaders(endpoint: string, keys: PushKeys, subject: string, atMs: number) {
  const { origin } = new URL(endpoint);
  const expires = Math.floor((atMs + vapidMs) / 1_000);
  const { publicKey, privateKey } = keys;
  const { Authorization } = webPush.getVapidHeaders(
    ...([origin, subject, publicKey, privateKey, "aes128gcm", expires] as const),
  );
  return { authorization: Authorization };
}

/**
 * A push with the topic of one that waits takes its place (RFC 8030 section 5.4): what is said again of an alert
 * is not there twice. At most 32 characters of the base64url alphabet.
 */
function topicOf({ notice }: Message): string {
  const of = notice.alertId ?? notice.noticeId;
  return createHash("sha256").update(of).digest("base64url").slice(0, 32);
}

function payloadOf({ notice, deliveryId, secret, title, path }: Message): PushMessage {
  const { noticeId, alertId, boothId, severity, text } = notice;
  return { noticeId, deliveryId, secret, alertId, boothId, severity, title, body: text, path };
}
