import type { Waits } from "@boothward/shared-types";
import { backlogMs } from "./backlog.ts";
import { loadOf, waitInLineMs } from "./waitInLine.ts";

/** What a wait is made from. */
export type WaitsFrom = {
  /** Jobs that wait at the printer; null: not known, taken as none. */
  readonly queuedJobs: number | null;
  readonly sheetsPerSession: number;
  readonly sessionsPerHour: number;
  /** How long a group has the booth, door to door; null: nothing shows it. */
  readonly sessionMs: number | null;
  /** The last stop: how long it was, and how long ago it ended; null: none, or long ago. */
  readonly lastStop: { readonly lengthMs: number; readonly endedAgoMs: number } | null;
};

/** A sheet takes 8 to 20 seconds (common practice, no source). */
export const sheetMs = 12_000;

/** Sessions differ in length by about this share (fitted to nothing; our own guess). */
const sessionSpread = 0.3;

/**
 * How long a group that comes now waits: for its prints, and before that for the booth. Sessions leave a booth
 * spaced apart, so that prints hardly ever wait for each other: what waits at the printer now is all there is
 * to a line there, and no formula of random arrivals is used for it.
 */
export function waitsNow(from: WaitsFrom): Waits {
  const sheets = ((from.queuedJobs ?? 0) + 1) * Math.max(1, from.sheetsPerSession);
  return { printMs: Math.round(sheets * sheetMs), boothMs: boothWaitMs(from) };
}

function boothWaitMs({ sessionsPerHour, sessionMs, lastStop }: WaitsFrom): number | null {
  if (sessionMs === null || sessionMs <= 0) return null;
  const booth = { perHour: sessionsPerHour, serviceMs: sessionMs, serviceSpread: sessionSpread };
  const waited = lastStop === null ? 0 : backlogMs(lastStop.lengthMs, lastStop.endedAgoMs, loadOf(booth));
  return Math.round(waited + waitInLineMs(booth));
}
