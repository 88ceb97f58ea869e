import type { StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";
import type { Stop } from "./printerLedger.ts";

/** Seconds a sheet took, with the temperature at the printer then; null: nothing measured it. */
export type SheetInterval = {
  readonly atMs: number;
  readonly intervalS: number;
  readonly insideC: number | null;
};

/** How long sheets of a queue took while jobs waited in it. */
export type SheetPace = {
  readonly queue: string;
  readonly finishedAtMs: number;
  /** Whether a job waited in the queue when the last one was done. */
  readonly isFollowed: boolean;
  readonly intervals: readonly SheetInterval[];
};

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** A queue's length is read each second or two; one that is read later may speak of a job that came meanwhile. */
const atOnceMs = 3_000;

/** Sheets take 8 to 20 s (common practice, no source): what took longer waited for something else. */
const longestSheetS = 90;

const intervalsKept = 60;

/** Takes in the length of a queue: whether another job waited when the last one was done. */
export function foldPaceQueue(paces: readonly SheetPace[], item: ItemOf<"queue">): readonly SheetPace[] {
  const pace = paces.find(({ queue }) => queue === item.queue);
  if (pace === undefined || item.atMs - pace.finishedAtMs > atOnceMs || !((item.queuedJobs ?? 0) > 0))
    return paces;
  return withEntry(paces, ({ queue }) => queue, { ...pace, isFollowed: true });
}

/**
 * Takes in a job that is done. Only where it had waited when the one before it came out does the time between them
 * tell of the printer, and not of the guests; nor does it where the printer stopped in between.
 */
export function foldPacePrint(
  paces: readonly SheetPace[],
  { queue, basis, pitches, atMs }: ItemOf<"print">,
  stops: readonly Stop[],
  insideC: number | null,
): readonly SheetPace[] {
  if (queue === null || basis !== "jobs" || pitches <= 0) return paces;
  const before = paces.find((each) => each.queue === queue);
  const sinceAtMs = before?.finishedAtMs ?? -Infinity;
  const intervalS = (atMs - sinceAtMs) / 1000 / pitches;
  const hasStopped = stops.some((stop) => stop.queue === queue && (stop.toAtMs ?? Infinity) > sinceAtMs);
  const isTelling = before?.isFollowed === true && !hasStopped && intervalS > 0 && intervalS <= longestSheetS;
  const intervals = before?.intervals ?? [];
  return withEntry(paces, (each) => each.queue, {
    ...{ queue, finishedAtMs: atMs, isFollowed: false },
    intervals: isTelling ? [...intervals.slice(1 - intervalsKept), { atMs, intervalS, insideC }] : intervals,
  });
}

/** The same without sheets from before this instant. */
export function forgetOldPaces(paces: readonly SheetPace[], fromAtMs: number): readonly SheetPace[] {
  const isOld = ({ finishedAtMs, intervals }: SheetPace) =>
    finishedAtMs < fromAtMs || intervals.some(({ atMs }) => atMs < fromAtMs);
  if (!paces.some(isOld)) return paces;
  return paces
    .filter(({ finishedAtMs }) => finishedAtMs >= fromAtMs)
    .map((pace) => ({ ...pace, intervals: pace.intervals.filter(({ atMs }) => atMs >= fromAtMs) }));
}
