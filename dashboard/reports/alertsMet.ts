import type { Matter, ReportAlert, Severity } from "@boothward/shared-types";

/** An alert as it is kept, with the lines of its history. */
export type AlertKept = {
  readonly alertId: string;
  readonly matter: Matter;
  readonly severity: Severity;
  readonly sinceAtMs: number;
  readonly raisedAtMs: number | null;
  readonly clearedAtMs: number | null;
  readonly taken: { readonly atMs: number; readonly by: string | null } | null;
  readonly steps: readonly { readonly atMs: number; readonly step: string; readonly by: string | null }[];
};

/** The alerts that were raised within a stretch, oldest first, each with who took it first and when. */
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
      return [{ alertId, matter, severity, sinceAtMs, raisedAtMs, takenAtMs, takenBy, clearedAtMs }];
    })
    .sort((a, b) => a.raisedAtMs - b.raisedAtMs);
}
