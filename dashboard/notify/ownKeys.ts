import { createHmac } from "node:crypto";
import webPush from "web-push";
import * as z from "zod";
import type { Store } from "../store/openStore.ts";

/** The pair that push services know this dashboard by, base64url. */
export type PushKeys = z.infer<typeof pushKeys>;

export type OwnKeys = { readonly push: PushKeys; readonly arrivalKey: string };

const pushKeys = z.object({ publicKey: z.string(), privateKey: z.string() });
const arrivalKey = z.object({ key: z.string() });

/** This dashboard's own keys: made at its first run, the same ever after, since browsers are bound to them. */
export async function ownKeys(
  settings: Store["settings"],
  randomBytes: (size: number) => Buffer,
  atMs: number,
): Promise<OwnKeys> {
  const push = await settings.getOrMake("pushKeys", pushKeys, () => webPush.generateVAPIDKeys(), atMs);
  const made = () => ({ key: randomBytes(32).toString("base64url") });
  const { key } = await settings.getOrMake("arrivalKey", arrivalKey, made, atMs);
  return { push, arrivalKey: key };
}

/** What a device says to tell that a delivery came: known again after a restart, 128 bits that nobody guesses. */
export function arrivalSecret(key: string, deliveryId: string): string {
  return createHmac("sha256", key).update(deliveryId).digest().subarray(0, 16).toString("base64url");
}
