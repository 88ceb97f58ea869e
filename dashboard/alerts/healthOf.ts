import type { AlertView, Health } from "@boothward/shared-types";
import { printerNow } from "../booth/printerNow.ts";
import { judgePrinter } from "./judgePrinter.ts";
import { hearingOf, phaseOf, type Scene } from "./scene.ts";

/** Fewer sheets than the busiest hour takes (common practice, no source): without a forecast not simply well. */
const busyHourSheets = 60;

/**
 * How a booth is, as one word, from its alerts as shown and what else is known. The first that applies: what
 * nobody can see is never fine.
 */
export function healthOf(scene: Scene & { readonly alerts: readonly AlertView[] }): Health {
  const hearing = hearingOf(scene);
  if (hearing === "silent" && phaseOf(scene) !== "away") return "silent";
  if (hearing !== "heard") return "unknown";
  const printerStands = judgePrinter(scene).stands;
  if (printerStands === "holds") return "stopped";
  if (scene.alerts.some((alert) => alert.severity === "actNow")) return "needsAHand";
  if (printerStands === "lingers" || scene.alerts.some((alert) => alert.severity === "plan")) return "watch";
  if (printerStands === "unseen" || isUnknown(scene)) return "unknown";
  return isWorthWatching(scene) ? "watch" : "fine";
}

/** Whether something that "fine" would promise is not known: the evening, the printer's state, the paper. */
function isUnknown({ state, shown, booking, atMs }: Scene): boolean {
  if (booking === null || shown.media === null) return true;
  const printer = printerNow(state, atMs);
  return printer === null || printer.state === null;
}

function isWorthWatching(scene: Scene): boolean {
  const { state, outlook, shown, atMs } = scene;
  const { media } = shown;
  const isUnforeseen = outlook.media === null && phaseOf(scene) === "open";
  return (
    state.faults.length > 0 ||
    media?.figure === "doubtful" ||
    (isUnforeseen && (media?.sheetsLeft ?? 0) < busyHourSheets) ||
    (state.power?.isOnMains === false && phaseOf(scene) !== "away") ||
    (printerNow(state, atMs)?.reasons.length ?? 0) > 0
  );
}
