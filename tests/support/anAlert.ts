import { noFigures, untouched, type Alert } from "../../dashboard/alerts/alert.ts";
import { sixAtMs } from "./aStoredItem.ts";

/** A printer stopped since 18:00, raised at once and open; `over` changes what a test is about. */
export function anAlert(over: Partial<Alert> = {}): Alert {
  return {
    ...noFigures,
    ...untouched,
    ...{ alertId: "alert-1", boothId: "juniper", matter: "printerStopped", severity: "actNow" },
    ...{ phase: "open", sinceAtMs: sixAtMs, heldFromAtMs: sixAtMs, raisedAtMs: sixAtMs },
    ...{ worseFromAtMs: null, clearFromAtMs: null, clearedAtMs: null, closedAtMs: null },
    reasons: ["media-jam"],
    ...over,
  };
}
