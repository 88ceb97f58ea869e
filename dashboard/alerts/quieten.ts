import type { Matter, Suppression } from "@boothward/shared-types";
import type { Alert } from "./alert.ts";
import { isOwnTrouble, type OwnTrouble } from "./ownTrouble.ts";
import type { Rule } from "./rules.ts";
import { hearingOf, type Scene } from "./scene.ts";

/** A step in an alert's history that nobody made. */
export type QuietStep = "suppressed" | "unsuppressed" | "switchedOff" | "switchedOn" | "laterOver";

/** Setting up begins this long before doors when nobody says so, and packing down ends so long after the close. */
const windowMs = 2 * 3_600_000;

/**
 * The alert with what silences it at this moment: the rule switched off, what is normal while setting up or
 * packing down, a booth that is dark, the dashboard's own trouble; and with a "Later" that is over taken off.
 */
export function quieten(
  alert: Alert,
  rule: Rule,
  scene: Scene,
  rulesOff: ReadonlySet<Matter>,
  own: OwnTrouble,
): { readonly alert: Alert; readonly steps: readonly QuietStep[] } {
  const isOutOfService = rulesOff.has(alert.matter);
  const suppressedBy = suppressionOf(rule, scene, own);
  const isLaterOver = alert.laterUntilAtMs !== null && alert.laterUntilAtMs <= scene.atMs;
  const steps: QuietStep[] = [];
  if (alert.isOutOfService !== isOutOfService) steps.push(isOutOfService ? "switchedOff" : "switchedOn");
  if ((alert.suppressedBy === null) !== (suppressedBy === null))
    steps.push(suppressedBy === null ? "unsuppressed" : "suppressed");
  if (isLaterOver) steps.push("laterOver");
  const isSame = steps.length === 0 && alert.suppressedBy === suppressedBy;
  if (isSame) return { alert, steps };
  const laterUntilAtMs = isLaterOver ? null : alert.laterUntilAtMs;
  return { alert: { ...alert, isOutOfService, suppressedBy, laterUntilAtMs }, steps };
}

function suppressionOf(rule: Rule, scene: Scene, own: OwnTrouble): Suppression | null {
  if (rule.matter === "agentSilent" && isOwnTrouble(own)) return "ownTrouble";
  if (rule.underSiteDark && hearingOf(scene) !== "heard") return "siteDark";
  const window = quietWindow(scene);
  return window !== null && rule.normalIn.includes(window) ? window : null;
}

/** Whether the booth is being set up or packed down: by what people said, and without a word by the plan's hours. */
export function quietWindow({ state, booking, atMs }: Scene): "settingUp" | "packingDown" | null {
  if (booking === null) return null;
  const said = state.readiness.findLast((change) => change.atMs <= atMs && change.atMs >= booking.fromAtMs);
  if (said?.to === "closing" || said?.to === "packedDown") return "packingDown";
  if (atMs < booking.openAtMs) {
    const isNear = said !== undefined || booking.openAtMs - atMs <= windowMs;
    return isNear && said?.to !== "open" ? "settingUp" : null;
  }
  return atMs >= booking.closeAtMs && atMs < booking.closeAtMs + windowMs ? "packingDown" : null;
}
