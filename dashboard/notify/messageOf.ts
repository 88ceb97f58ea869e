import type { Severity } from "@boothward/shared-types";
import type { DueDelivery, Notice } from "../store/notices.ts";
import type { Message } from "./channel.ts";
import { arrivalSecret } from "./ownKeys.ts";

const titles: Record<Severity, string> = { actNow: "Now", plan: "Soon", note: "Good to know" };

/** A delivery as it is sent, with addresses below `origin`. */
export function messageOf(delivery: DueDelivery, arrivalKey: string, origin: string): Message {
  const { deliveryId, notice, boothName } = delivery;
  const secret = arrivalSecret(arrivalKey, deliveryId);
  const path = pathOf(notice, deliveryId, secret);
  const title = notice.why === "test" ? "Test alert" : titles[notice.severity];
  return { deliveryId, notice, boothName, secret, title, path, link: `${origin}${path}` };
}

/** A test leads to where opening it says that it came; the secret stands behind the #, which no server is told. */
function pathOf({ why, boothId }: Notice, deliveryId: string, secret: string): string {
  if (why === "test") return `/heard#delivery=${deliveryId}&secret=${secret}`;
  return boothId === null ? "/" : `/booths/${encodeURIComponent(boothId)}`;
}
