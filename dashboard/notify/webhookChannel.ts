import { createHmac } from "node:crypto";
import * as z from "zod";
import type { CallOut } from "./callOut.ts";
import type { Channel, Message } from "./channel.ts";
import { resultOfCall } from "./resultOfCall.ts";

/** A webhook as it is kept: with the secret that its receiver checks signatures by. */
export const keptWebhook = z.object({ url: z.string(), secret: z.string() });

/** A POST of JSON, signed as the open Standard Webhooks specification says; a repeat has the same `webhook-id`. */
export function webhookChannel(callOut: CallOut): Channel {
  return {
    async send(kept, message, atMs) {
      const { url, secret } = keptWebhook.parse(kept);
      const body = JSON.stringify(bodyOf(message));
      const seconds = Math.floor(atMs / 1_000);
      const called = await callOut({
        method: "POST",
        url,
        headers: {
          "content-type": "application/json",
          "webhook-id": message.deliveryId,
          "webhook-timestamp": String(seconds),
          "webhook-signature": webhookSignature(secret, message.deliveryId, seconds, body),
        },
        body,
      });
      // Standard Webhooks: 410 ends the subscription; every other no is tried again.
      return resultOfCall(called, atMs, (status) => (status === 410 ? "gone" : "retryable"));
    },
  };
}

/** A new secret: 32 random bytes in the form that receivers' libraries know. */
export function webhookSecret(randomBytes: (size: number) => Buffer): string {
  return `whsec_${randomBytes(32).toString("base64")}`;
}

/** **Source:** Standard Webhooks, "Signature scheme": HMAC-SHA256 over `id.timestamp.body`, base64, with its version. */
export function webhookSignature(secret: string, id: string, seconds: number, body: string): string {
  const key = Buffer.from(secret.replace(/^whsec_/, ""), "base64");
  return `v1,${createHmac("sha256", key).update(`${id}.${seconds}.${body}`).digest("base64")}`;
}

function bodyOf({ notice, boothName, link }: Message) {
  const { noticeId, alertId, boothId, why, severity, text, createdAtMs } = notice;
  return {
    type: "notice",
    timestamp: new Date(createdAtMs).toISOString(),
    data: { noticeId, alertId, boothId, booth: boothName, why, severity, text, link },
  };
}
