import { isBellOn } from "../attend/bell.ts";
import { reach as words } from "../words/en/reach.ts";
import type { Device } from "./phoneAbilities.ts";

/** What the browser says of itself now. */
export async function readDevice(window: Window & typeof globalThis): Promise<Device> {
  const { navigator } = window;
  const hasPush = "serviceWorker" in navigator && "PushManager" in window && "Notification" in window;
  const registration = hasPush ? await navigator.serviceWorker.getRegistration() : undefined;
  const subscription = (await registration?.pushManager.getSubscription().catch(() => null)) ?? null;
  return {
    isSecure: window.isSecureContext,
    hasAudio: "AudioContext" in window,
    isBellOn: isBellOn.value,
    hasVibration: "vibrate" in navigator,
    hasPush,
    permission: hasPush ? window.Notification.permission : "default",
    isSubscribed: subscription !== null,
    isApple: kindOf(navigator) === "iPhone" || kindOf(navigator) === "iPad",
    // `standalone` is Apple's own word for it.
    isInstalled:
      window.matchMedia("(display-mode: standalone)").matches ||
      ("standalone" in navigator && navigator.standalone === true),
  };
}

/** A plain name for this device, as a list of ways to reach a person shows it. */
export function deviceName(navigator: Navigator): string {
  return words.devices[kindOf(navigator)];
}

function kindOf({ userAgent, maxTouchPoints }: Navigator): keyof typeof words.devices {
  if (userAgent.includes("iPhone")) return "iPhone";
  // An iPad calls itself a Mac, and is the only one with a touch screen.
  if (userAgent.includes("iPad") || (userAgent.includes("Macintosh") && maxTouchPoints > 1)) return "iPad";
  return userAgent.includes("Android") ? "android" : "other";
}
