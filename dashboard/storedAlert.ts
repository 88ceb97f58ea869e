import { alertFigures, matter, severity, suppression } from "@boothward/shared-types";
import * as z from "zod";
import type { Alert } from "./alerts/alert.ts";
import { alertState } from "./alerts/alertState.ts";
import type { AlertStep } from "./alerts/stepBooth.ts";
import type { AlertRow, AlertStepRow } from "./store/tables.ts";

const nullableMs = z.number().nullable();

/** An alert as it stands in the store's `body`. */
const alertBody = z.object({
  alertId: z.string(),
  boothId: z.string(),
  ...{ matter, severity },
  // Before alerts were kept for a while once they were over, one that was over was called cleared.
  phase: z.preprocess(
    (phase) => (phase === "cleared" ? "closed" : phase),
    z.enum(["holding", "open", "clearing", "over", "closed"]),
  ),
  sinceAtMs: z.number(),
  heldFromAtMs: z.number(),
  ...{ raisedAtMs: nullableMs, worseFromAtMs: nullableMs, clearFromAtMs: nullableMs },
  ...{ clearedAtMs: nullableMs, closedAtMs: nullableMs.default(null) },
  ...alertFigures,
  taken: z.object({ by: z.string(), atMs: z.number() }).nullable().default(null),
  ...{ laterUntilAtMs: nullableMs.default(null), doneAtMs: nullableMs.default(null) },
  suppressedBy: z.nullable(suppression).default(null),
  isOutOfService: z.boolean().default(false),
  told: z.array(z.object({ key: z.string(), atMs: z.number() })).default([]),
});

export function alertOf(row: AlertRow): Alert {
  return alertBody.parse(JSON.parse(row.body));
}

export function rowOf(alert: Alert): AlertRow {
  const { alertId, boothId, sinceAtMs, raisedAtMs, clearedAtMs, closedAtMs } = alert;
  const columns = {
    ...{ alertId, boothId, matter: alert.matter, sinceAtMs },
    ...{ raisedAtMs, clearedAtMs, closedAtMs },
  };
  return { ...columns, body: JSON.stringify(alert) };
}

/** A line of an alert's history; `said`: by a person, from a device, with the page's own id of it. */
export function stepRowOf(
  { alert, step, by }: AlertStep,
  at: { readonly stepId: string; readonly atMs: number },
  said: { readonly device: string; readonly sayId: string } | null,
): AlertStepRow {
  const { alertId, boothId, severity: word } = alert;
  const state = alertState(alert, at.atMs);
  const { device = null, sayId = null } = said ?? {};
  return { ...at, alertId, boothId, step, state, severity: word, by, device, sayId };
}

/**
 * What has to be written so that the store has these alerts instead of those. Figures that drift from second
 * to second (sheets, temperature) are judged anew after a restart: they alone are no reason to write.
 */
export function alertsToSave(
  before: readonly Alert[],
  after: readonly Alert[],
): { readonly save: AlertRow[]; readonly remove: string[] } {
  const known = new Map(before.map((alert) => [alert.alertId, standing(alert)]));
  const kept = new Set(after.map((alert) => alert.alertId));
  return {
    save: after.filter((alert) => known.get(alert.alertId) !== standing(alert)).map(rowOf),
    remove: before.map(({ alertId }) => alertId).filter((alertId) => !kept.has(alertId)),
  };
}

function standing(alert: Alert): string {
  const { severity: word, phase, sinceAtMs, heldFromAtMs, raisedAtMs } = alert;
  const { worseFromAtMs, clearFromAtMs, clearedAtMs, closedAtMs } = alert;
  const { taken, laterUntilAtMs, doneAtMs, suppressedBy, isOutOfService, told } = alert;
  return JSON.stringify([
    ...[word, phase, sinceAtMs, heldFromAtMs, raisedAtMs],
    ...[worseFromAtMs, clearFromAtMs, clearedAtMs, closedAtMs],
    ...[taken, laterUntilAtMs, doneAtMs, suppressedBy, isOutOfService, told.length],
  ]);
}
