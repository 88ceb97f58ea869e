import { alertFigures, matter, severity, suppression } from "@boothward/shared-types";
import * as z from "zod";
import type { Alert } from "./alerts/alert.ts";
import type { AlertRow } from "./store/tables.ts";

/** An alert as it stands in the store's `body`. */
const alertBody = z.object({
  alertId: z.string(),
  boothId: z.string(),
  ...{ matter, severity },
  phase: z.enum(["holding", "open", "clearing", "cleared"]),
  sinceAtMs: z.number(),
  heldFromAtMs: z.number(),
  raisedAtMs: z.number().nullable(),
  worseFromAtMs: z.number().nullable(),
  clearFromAtMs: z.number().nullable(),
  clearedAtMs: z.number().nullable(),
  ...alertFigures,
  taken: z.object({ by: z.string(), atMs: z.number() }).nullable().default(null),
  laterUntilAtMs: z.number().nullable().default(null),
  doneAtMs: z.number().nullable().default(null),
  suppressedBy: z.nullable(suppression).default(null),
  isOutOfService: z.boolean().default(false),
  told: z.array(z.object({ key: z.string(), atMs: z.number() })).default([]),
});

export function alertOf(row: AlertRow): Alert {
  return alertBody.parse(JSON.parse(row.body));
}

export function rowOf(alert: Alert): AlertRow {
  const { alertId, boothId, sinceAtMs, raisedAtMs, clearedAtMs } = alert;
  const columns = { alertId, boothId, matter: alert.matter, sinceAtMs, raisedAtMs, clearedAtMs };
  return { ...columns, body: JSON.stringify(alert) };
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
  const { worseFromAtMs, clearFromAtMs, clearedAtMs } = alert;
  return JSON.stringify([
    ...[word, phase, sinceAtMs, heldFromAtMs, raisedAtMs],
    ...[worseFromAtMs, clearFromAtMs, clearedAtMs],
  ]);
}
