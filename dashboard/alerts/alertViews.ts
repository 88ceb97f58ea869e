import type { AlertState, AlertView } from "@boothward/shared-types";
import { compareSeverity, figuresOf, type Alert } from "./alert.ts";
import { alertState } from "./alertState.ts";
import { ruleOf } from "./rules.ts";

/** What stands on a booth's card: not what is silenced, switched off or over. */
const onTheCard: ReadonlySet<string> = new Set<AlertState>(["unacknowledged", "acknowledged", "shelved"]);

/**
 * The alerts that people see, the most pressing first, then the first one due. Of a booth that is not heard only what
 * needs no word from it is shown: what the others say may be over by now. They are not cleared either.
 */
export function alertViews(alerts: readonly Alert[], isHeard: boolean, atMs: number): AlertView[] {
  return alerts
    .filter((alert) => onTheCard.has(alertState(alert, atMs)))
    .filter((alert) => isHeard || !ruleOf(alert.matter).underSiteDark)
    .sort(
      (a, b) =>
        compareSeverity(b.severity, a.severity) || dueAtMs(a) - dueAtMs(b) || a.sinceAtMs - b.sinceAtMs,
    )
    .map((alert) => alertViewOf(alert, atMs))
    .filter((view) => view !== null);
}

/** The sooner something has to be done the further up; without a latest moment "now" is now, and "soon" can wait. */
function dueAtMs({ byAtMs, severity }: Alert): number {
  return byAtMs ?? (severity === "actNow" ? 0 : Number.MAX_SAFE_INTEGER);
}

/** One alert as pages show it; null where there is nothing to show. */
export function alertViewOf(alert: Alert, atMs: number): AlertView | null {
  const state = alertState(alert, atMs);
  if (state === "normal") return null;
  const { alertId, boothId, matter, severity, sinceAtMs } = alert;
  const { taken, laterUntilAtMs, doneAtMs, suppressedBy, clearedAtMs } = alert;
  return {
    ...{ alertId, boothId, matter, severity, sinceAtMs, ...figuresOf(alert), reasons: [...alert.reasons] },
    ...{ state, taken, laterUntilAtMs, doneAtMs, suppressedBy, overAtMs: clearedAtMs },
  };
}
