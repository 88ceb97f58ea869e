import type { PushBody } from "@boothward/shared-types/notices";
import { done } from "../state/api.ts";
import type { Refusal } from "../state/api.ts";
import { reachKey } from "../state/alertShapes.ts";
import type { Page } from "../state/pageContext.ts";
import { reach as words } from "../words/en/reach.ts";
import { deviceName } from "./readDevice.ts";

/**
 * Asks the person and the browser for notices with the page closed, and tells the dashboard where they go.
 * Gives why not, null when they come. Runs inside a tap.
 */
export async function allowNotices(page: Page, window: Window & typeof globalThis): Promise<Refusal | null> {
  const permission = await window.Notification.requestPermission();
  if (permission !== "granted") return no(words.trouble.denied);
  const registration = await window.navigator.serviceWorker.getRegistration();
  if (registration?.active == null) return no(words.trouble.noWorker);
  const key = await page.call("GET", "/api/reach-key", reachKey);
  if ("refusal" in key) return key.refusal;
  const body = await subscribe(registration.pushManager, key.value.publicKey);
  if (body === null) return no(words.trouble.service);
  const form = { way: "push", label: deviceName(window.navigator), body };
  const came = await page.call("POST", "/api/reaches", done, form);
  return "refusal" in came ? came.refusal : null;
}

/** A subscription under the dashboard's key; one that was made under another key is given up. */
async function subscribe(pushManager: PushManager, publicKey: string): Promise<PushBody | null> {
  const options = { userVisibleOnly: true, applicationServerKey: bytesOf(publicKey) };
  const made = await pushManager.subscribe(options).catch(async (error: unknown) => {
    if (!(error instanceof DOMException) || error.name !== "InvalidStateError") return null;
    await (await pushManager.getSubscription())?.unsubscribe();
    return await pushManager.subscribe(options).catch(() => null);
  });
  const { endpoint, keys } = made?.toJSON() ?? {};
  const { p256dh, auth } = keys ?? {};
  if (endpoint === undefined || p256dh === undefined || auth === undefined) return null;
  return { endpoint, keys: { p256dh, auth } };
}

/** The bytes of a key in URL-safe base64 (RFC 4648 section 5). */
export function bytesOf(base64Url: string): Uint8Array<ArrayBuffer> {
  const text = atob(base64Url.replaceAll("-", "+").replaceAll("_", "/"));
  return Uint8Array.from(text, (letter) => letter.charCodeAt(0));
}

function no(sentence: string): Refusal {
  return { error: "noNotices", sentence, field: null };
}
