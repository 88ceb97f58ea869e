import type { SourceItem } from "../../readings/source.ts";
import type { MeterSeen } from "./meters.ts";
import type { JobSeen, PrinterSeen } from "./operations.ts";
import { pageSize, pitchesPerPage } from "../pitches.ts";

/** What has been told of a printer so far. */
export type Told = {
  /** State and reasons as one text; null before the first. */
  readonly state: string | null;
  /** Figures by part. */
  readonly meters: ReadonlyMap<string, string>;
  readonly queuedJobs: number | null;
  readonly queueAtMonoMs: number;
};

export const toldNothing: Told = {
  state: null,
  meters: new Map(),
  queuedJobs: null,
  queueAtMonoMs: -Infinity,
};

/** The queue's length is told at least this often, so that a silent minute is a minute without news. */
const queueEveryMs = 60_000;

/** What is new about a printer since it was last told: its state, its meters, its queue. */
export function printerItems(
  told: Told,
  queue: string,
  seen: PrinterSeen,
  monoMs: number,
): { items: readonly SourceItem[]; told: Told } {
  const state = JSON.stringify([seen.state, [...seen.reasons].sort()]);
  const changed = seen.meters.filter((meter) => told.meters.get(meter.part) !== figureOf(meter));
  const isQueueDue = seen.queuedJobs !== told.queuedJobs || monoMs - told.queueAtMonoMs >= queueEveryMs;
  const items: SourceItem[] = [
    ...(state === told.state ? [] : [stateItem(queue, seen)]),
    ...changed.map((meter) => meterItem(queue, meter)),
    ...(isQueueDue ? [queueItem(queue, seen.queuedJobs)] : []),
  ];
  const meters = new Map([...told.meters, ...changed.map((meter) => [meter.part, figureOf(meter)] as const)]);
  const queueAtMonoMs = isQueueDue ? monoMs : told.queueAtMonoMs;
  return { items, told: { state, meters, queuedJobs: seen.queuedJobs, queueAtMonoMs } };
}

/** The print that a finished job made, dated by the printer's own clock. */
export function printItem(
  queue: string,
  job: JobSeen,
  printId: string,
  pitchesSetting: number | null,
): SourceItem {
  const copies = sheetsOf(job);
  const pitches = copies * (pitchesSetting ?? pitchesPerPage(job.media));
  const seen = { copies, pitches, queue, basis: "jobs" as const, sessionId: null, size: pageSize(job.media) };
  return { item: { class: "fact", kind: "print", printId, ...seen }, agoMs: agoMs(job) };
}

/**
 * Pages that came out. A driver may report the page once whatever the copies, or not at all; a job that is
 * complete has made each copy at least once.
 */
function sheetsOf(job: JobSeen): number {
  return Math.max(job.impressions ?? 0, job.copies ?? 1, 1);
}

/** Both times are whole seconds of the printer's clock, so that a second apart can be no time at all. */
function agoMs({ upTimeS, completedAtS }: JobSeen): number {
  if (upTimeS === null || completedAtS === null) return 0;
  const seconds = upTimeS - completedAtS;
  return seconds <= 1 ? 0 : seconds * 1_000;
}

function stateItem(queue: string, { state, reasons, message }: PrinterSeen): SourceItem {
  const kept = reasons.slice(0, 40).map((reason) => reason.slice(0, 120));
  return {
    item: {
      class: "fact",
      kind: "printerState",
      queue,
      state,
      reasons: kept,
      message: message?.slice(0, 200) ?? null,
    },
  };
}

function meterItem(queue: string, { part, sheetsLeft, leftPct, ageMs }: MeterSeen): SourceItem {
  return {
    item: { class: "fact", kind: "media", queue, part: part.slice(0, 200), sheetsLeft, leftPct, ageMs },
  };
}

function queueItem(queue: string, queuedJobs: number | null): SourceItem {
  return { item: { class: "reading", kind: "queue", queue, queuedJobs } };
}

function figureOf({ sheetsLeft, leftPct }: MeterSeen): string {
  return `${sheetsLeft} ${leftPct}`;
}
