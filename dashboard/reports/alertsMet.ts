import type { AlertsMet, Matter, ReportAlert, Severity } from "@boothward/shared-types";

/** An alert as it is kept, with the lines of its history and of who was told. */
export type AlertKept = {
  readonly alertId: string;
  readonly matter: Matter;
  readonly severity: Severity;
  readonly sinceAtMs: number;
  readonly raisedAtMs: number | null;
  readonly clearedAtMs: number | null;
  readonly taken: { readonly atMs: number; readonly by: string | null } | null;
  readonly steps: readonly { readonly atMs: number; readonly step: string; readonly by: string | null }[];
  /** When a device said that it had come, or the service beyond that it had taken it. */
  readonly told: readonly { readonly takenAtMs: number | null; readonly arrivedAtMs: number | null }[];
};

/** The alerts that were raised within a stretch, oldest first, each with who was told and took it first, and when. */
export function alertsMet(
  kept: readonly AlertKept[],
  { fromAtMs, toAtMs }: { readonly fromAtMs: number; readonly toAtMs: number },
): ReportAlert[] {
  return kept
    .flatMap((alert) => {
      const { alertId, matter, severity, sinceAtMs, raisedAtMs, clearedAtMs } = alert;
      if (raisedAtMs === null || raisedAtMs < fromAtMs || raisedAtMs >= toAtMs) return [];
      const first = alert.steps.find(({ step }) => step === "taken") ?? alert.taken;
      const { atMs: takenAtMs = null, by: takenBy = null } = first ?? {};
      const told = alert.told.flatMap(({ arrivedAtMs, takenAtMs: atMs }) => arrivedAtMs ?? atMs ?? []);
      const toldAtMs = told.length === 0 ? null : Math.min(...told);
      const met = { toldAtMs, takenAtMs, takenBy, clearedAtMs };
      return [{ alertId, matter, severity, sinceAtMs, raisedAtMs, ...met }];
    })
    .sort((a, b) => a.raisedAtMs - b.raisedAtMs);
}

/** How fast the alerts of an evening were met, in figures; null: there was none. */
export function metInFigures(alerts: readonly ReportAlert[]): AlertsMet | null {
  if (alerts.length === 0) return null;
  const after = (of: (alert: ReportAlert) => number | null) =>
    alerts
      .flatMap((alert) => {
        const atMs = of(alert);
        return atMs === null ? [] : [Math.max(0, atMs - alert.raisedAtMs)];
      })
      .sort((a, b) => a - b);
  const [told, taken] = [after(({ toldAtMs }) => toldAtMs), after(({ takenAtMs }) => takenAtMs)];
  return {
    ...{ alerts: alerts.length, told: told.length, taken: taken.length },
    ...{ medianToldMs: middle(told), medianTakenMs: middle(taken), longestTakenMs: taken.at(-1) ?? null },
  };
}

/** Of two in the middle the later: nothing is made better than it was. */
function middle(sorted: readonly number[]): number | null {
  return sorted[Math.floor(sorted.length / 2)] ?? null;
}
