import type { Readiness } from "@boothward/shared-types";

/**
 * What may be said next of where a booth stands, the usual one first. A step may be left out, as people at work
 * leave them out, but guests come to no booth that was not said to be powered or checked, and nothing is packed while
 * it is open. null: nobody said anything yet.
 */
export function nextReadiness(now: Readiness | null): readonly Readiness[] {
  return now === null ? beginning : after[now];
}

const beginning: readonly Readiness[] = ["packed", "onSite", "powered"];

const after: Readonly<Record<Readiness, readonly Readiness[]>> = {
  packed: ["onSite", "powered"],
  onSite: ["powered"],
  powered: ["checked", "open"],
  checked: ["open"],
  open: ["onBreak", "closing"],
  onBreak: ["open", "closing"],
  // An evening that was extended goes on.
  closing: ["packedDown", "open"],
  packedDown: ["packed", "onSite"],
};
