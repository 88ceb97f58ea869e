import type { AlertView } from "@boothward/shared-types";
import { compareSeverity, figuresOf, type Alert } from "./alert.ts";

/**
 * The alerts that people see, the most pressing first, then the first one due. Of a booth that is not heard only its silence is shown:
 * what the others say may be over by now. They are not cleared either.
 */
export function alertViews(alerts: readonly Alert[], isHeard: boolean): AlertView[] {
  return alerts
    .filter((alert) => alert.phase === "open" || alert.phase === "clearing")
    .filter((alert) => isHeard || alert.matter === "agentSilent")
    .sort(
      (a, b) =>
        compareSeverity(b.severity, a.severity) || dueAtMs(a) - dueAtMs(b) || a.sinceAtMs - b.sinceAtMs,
    )
    .map(viewOf);
}

/** The sooner something has to be done the further up; without a latest moment "now" is now, and "soon" can wait. */
function dueAtMs({ byAtMs, severity }: Alert): number {
  return byAtMs ?? (severity === "actNow" ? 0 : Number.MAX_SAFE_INTEGER);
}

function viewOf(alert: Alert): AlertView {
  const { alertId, boothId, matter, severity, sinceAtMs } = alert;
  return {
    ...{ alertId, boothId, matter, severity, sinceAtMs, ...figuresOf(alert) },
    ...{ state: "unacknowledged", taken: null, laterUntilAtMs: null, doneAtMs: null },
    ...{ suppressedBy: null, overAtMs: null },
  };
}
