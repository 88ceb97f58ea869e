import type { SourceItem } from "../../readings/source.ts";
import { jobBits, printerCondition } from "./printerCondition.ts";
import type { OpenJob } from "./spoolerLedger.ts";
import type { QueueLook, WindowsJob } from "./spoolerLine.ts";

/** What has been told of a queue so far. */
export type SpoolerTold = {
  /** State, reasons and message as one text; null before the first. */
  readonly condition: string | null;
  readonly queuedJobs: number | null;
  readonly queueAtMonoMs: number;
  readonly pitchesEver: number | null;
};

export const spoolerToldNothing: SpoolerTold = {
  condition: null,
  queuedJobs: null,
  queueAtMonoMs: -Infinity,
  pitchesEver: null,
};

/** The queue's length is told at least this often, so that a silent minute is a minute without news. */
const queueEveryMs = 60_000;

/** What is new about a queue since it was last told: its printer's state, its counter, its length. */
export function spoolerItems(
  told: SpoolerTold,
  { printer, jobs, pagesEver }: QueueLook,
  pitchesPerPage: number,
  monoMs: number,
): { items: readonly SourceItem[]; told: SpoolerTold } {
  const queue = printer.Name.slice(0, 200);
  const { state, reasons, message } = printerCondition(printer, jobs ?? []);
  const condition = JSON.stringify([state, [...reasons].sort(), message]);
  const queuedJobs = jobs === null ? null : jobs.filter(isWaiting).length;
  const isQueueDue = queuedJobs !== told.queuedJobs || monoMs - told.queueAtMonoMs >= queueEveryMs;
  const pitchesEver = pagesEver === null ? told.pitchesEver : pagesEver * pitchesPerPage;
  const items: SourceItem[] = [];
  if (condition !== told.condition)
    items.push({
      item: { class: "fact", kind: "printerState", queue, state, reasons: [...reasons], message },
    });
  if (pitchesEver !== null && pitchesEver !== told.pitchesEver)
    items.push({ item: { class: "fact", kind: "counter", queue, pitchesEver } });
  if (isQueueDue) items.push({ item: { class: "reading", kind: "queue", queue, queuedJobs } });
  const queueAtMonoMs = isQueueDue ? monoMs : told.queueAtMonoMs;
  return { items, told: { condition, queuedJobs, queueAtMonoMs, pitchesEver } };
}

/** The print a job made. A driver may not say its pages: what was printed is a page at least. */
export function spoolerPrintItem(
  queue: string,
  { printId, pages }: OpenJob,
  pitchesPerPage: number,
  agoMs: number,
): SourceItem {
  const copies = Math.max(1, pages);
  const pitches = copies * pitchesPerPage;
  const unknown = { sessionId: null, size: null };
  const seen = { copies, pitches, queue: queue.slice(0, 200), basis: "jobs", ...unknown } as const;
  return { item: { class: "fact", kind: "print", printId, ...seen }, agoMs };
}

/** Jobs that are kept after they are printed, or on their way out, wait for nothing. */
function isWaiting({ StatusMask }: WindowsJob): boolean {
  return ((StatusMask ?? 0) & (jobBits.printed | jobBits.deleting | jobBits.deleted)) === 0;
}
