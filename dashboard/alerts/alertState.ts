import type { AlertState } from "@boothward/shared-types";
import type { Alert } from "./alert.ts";

/**
 * Where an alert stands in the words of ISA-18.2 (as tabled: normal, unacknowledged, acknowledged,
 * returned-to-normal unacknowledged, shelved, suppressed by design, out of service). Being judged but not yet
 * raised is "normal", and so is what is over and seen to.
 */
export function alertState(alert: Alert, atMs: number): AlertState | "normal" {
  if (alert.phase === "holding" || alert.phase === "closed") return "normal";
  if (alert.phase === "over") return isSeenTo(alert) ? "normal" : "returnedUnacknowledged";
  if (alert.isOutOfService) return "outOfService";
  if (alert.suppressedBy !== null) return "suppressed";
  if (alert.laterUntilAtMs !== null && atMs < alert.laterUntilAtMs) return "shelved";
  return alert.taken === null ? "unacknowledged" : "acknowledged";
}

/** Whether nobody has to look at it once it is over: somebody took it, or it was only good to know, or silenced. */
export function isSeenTo(alert: Alert): boolean {
  const wasQuiet = alert.suppressedBy !== null || alert.isOutOfService;
  return alert.taken !== null || alert.severity === "note" || wasQuiet;
}
