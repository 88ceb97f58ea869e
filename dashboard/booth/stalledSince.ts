import type { BoothState } from "./boothState.ts";
import type { Finishing } from "./printingEvidence.ts";
import { printerNow } from "./printerNow.ts";

/** Until a printer has shown its own: a sheet takes 8 to 20 s (common practice, no source). */
const usualSheetMs = 20_000;

/** A printer that cools down or cleans its ribbon pauses for less, also in the middle of a long job. */
const leastMs = 60_000;

/** So many sheet-times without a sheet. A job is seen only when it is done: the time of its others comes on top of either. */
const sheetTimes = 3;

/** A queue's length is said at least each minute; an older one says nothing of now. */
const queueGoodMs = 3 * 60_000;

/**
 * Since when jobs wait and no sheet was finished though the printer does not say that it stopped; null: that is
 * not so. The time a sheet takes is learned from sheets that followed each other closely.
 */
export function stalledSince(
  state: Pick<BoothState, "readings" | "finishings" | "printing" | "agent" | "faults">,
  atMs: number,
): number | null {
  const stalls = state.readings.queues.flatMap(({ queue, queuedJobs, waitingSinceAtMs, atMs: saidAtMs }) => {
    if (waitingSinceAtMs === null || (queuedJobs ?? 0) === 0 || atMs - saidAtMs > queueGoodMs) return [];
    const printer = state.printing.printers.find((each) => each.queue === queue);
    if (printer?.isStopped === true) return [];
    const finishing = state.finishings.find((each) => each.queue === queue);
    // After a jam or a roll change the printer begins the sheet anew.
    const stop = state.printing.stops.findLast((each) => each.queue === queue);
    const freeAtMs = Math.max(finishing?.finishedAtMs ?? -Infinity, stop?.toAtMs ?? -Infinity);
    const sinceAtMs = Math.max(waitingSinceAtMs, freeAtMs);
    return atMs - sinceAtMs > allowedMs(finishing) ? [sinceAtMs] : [];
  });
  if (stalls.length === 0 || printerNow(state, atMs)?.isSourceLost === true) return null;
  return Math.min(...stalls);
}

/** How long a queue may work without finishing anything. */
export function allowedMs(finishing: Finishing | undefined): number {
  const sizes = finishing?.sizes ?? [];
  const others = Math.max(0, Math.ceil(Math.max(1, ...sizes)) - 1);
  const sheetMs = sheetMsOf(finishing?.sheetsMs ?? []);
  return others * sheetMs + Math.max(leastMs, sheetTimes * sheetMs);
}

/** A quarter of the times seen were shorter: those in which nothing but the printer was waited for. */
function sheetMsOf(seen: readonly number[]): number {
  const sorted = [...seen].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 4)] ?? usualSheetMs;
}
