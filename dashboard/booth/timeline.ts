import type { StoredItem } from "@boothward/shared-types";
import { binOf } from "./bins.ts";
import { emptyBooth, reduceBooth, reduceTakenBack, type BoothState } from "./boothState.ts";
import { compareItems } from "./compareItems.ts";
import {
  isTakenBack,
  mergeTakings,
  nameOf,
  takenBackNames,
  takingsIn,
  takingsOf,
  wrongFrom,
  type Taking,
} from "./takenBack.ts";

/**
 * A booth's state with the checkpoints it can be wound back to, so that a fact which comes late is folded
 * where it belongs: whatever the order of arrival, the state is that of all items in their one order, without
 * the words that people took back.
 */
export type Timeline = {
  readonly state: BoothState;
  /** The last item folded; null before the first. */
  readonly head: StoredItem | null;
  /** Oldest first. */
  readonly checkpoints: readonly Checkpoint[];
  /** Every taking back that was seen. */
  readonly takings: readonly Taking[];
};

/** The state of everything before `fromAtMs`, the beginning of a bin. Plain JSON: it may be stored and resumed from. */
export type Checkpoint = { readonly fromAtMs: number; readonly state: BoothState };

/** Gives all stored items of the booth at or after this instant, in any order; `-Infinity` for all there are. */
export type LoadSince = (fromAtMs: number) => readonly StoredItem[] | Promise<readonly StoredItem[]>;

/** A link that was down longer than an event costs one rebuild from the store. */
const checkpointsMs = 12 * 3_600_000;

/** The timeline of a booth of which nothing has been heard. */
export function emptyTimeline(boothId: string): Timeline {
  return { state: emptyBooth(boothId), head: null, checkpoints: [], takings: [] };
}

/**
 * The timeline with these items in it, in whatever order they came; they must be in the store already.
 *
 * Usually they follow the head and are folded on. Otherwise it winds back to the checkpoint before the
 * earliest, or before the earliest word that is taken back or restored, and folds again what the store gives,
 * which may hold these and newer items too. One call per booth at a time.
 */
export async function foldItems(
  timeline: Timeline,
  newItems: readonly StoredItem[],
  loadSince: LoadSince,
): Promise<Timeline> {
  const items = inOrder(newItems);
  const first = items[0];
  if (first === undefined) return timeline;
  const takings = mergeTakings(timeline.takings, takingsIn(items));
  const wrongFromAtMs = takings === timeline.takings ? null : changedFrom(timeline, takings, items);
  if (wrongFromAtMs === null && isAfterHead(timeline, first)) {
    return foldOn({ ...timeline, takings }, items);
  }
  return foldAgain({ ...timeline, takings }, Math.min(first.atMs, wrongFromAtMs ?? Infinity), loadSince);
}

/** The timeline of everything stored, from the first item, or from a checkpoint kept earlier on. */
export async function rebuildTimeline(
  boothId: string,
  loadSince: LoadSince,
  checkpoint: Checkpoint | null = null,
): Promise<Timeline> {
  const empty = emptyTimeline(boothId);
  if (checkpoint === null) return foldAgain(empty, -Infinity, loadSince);
  const { state, fromAtMs } = checkpoint;
  const kept = { ...empty, state, checkpoints: [checkpoint], takings: takingsOf(state.words) };
  return foldAgain(kept, fromAtMs, loadSince);
}

/** The state of these items, all there are of a booth, in any order. */
export function stateOfItems(boothId: string, items: readonly StoredItem[]): BoothState {
  const takings = mergeTakings([], takingsIn(items));
  return foldOn({ ...emptyTimeline(boothId), takings }, inOrder(items)).state;
}

/** The timeline wound back to the checkpoint before `toAtMs` and folded on with what the store gives since. */
async function foldAgain(timeline: Timeline, toAtMs: number, loadSince: LoadSince): Promise<Timeline> {
  const rewound = rewind(timeline, toAtMs);
  const items = inOrder(await loadSince(rewound.fromAtMs));
  const takings = mergeTakings(timeline.takings, takingsIn(items));
  const known = { ...rewound.timeline, takings };
  const wrongFromAtMs = rewound.fromAtMs === -Infinity ? null : changedFrom(known, takings, items);
  return wrongFromAtMs === null
    ? foldOn(known, items)
    : foldAgain({ ...timeline, takings }, wrongFromAtMs, loadSince);
}

/**
 * From which instant on the state is wrong with these takings; null: it is right. A word that neither the
 * state nor the items know may be older than both: everything is folded again.
 */
function changedFrom(
  { state, takings: before }: Timeline,
  takings: readonly Taking[],
  items: readonly StoredItem[],
): number | null {
  const names = new Set([...state.words, ...items].map(nameOf));
  const known = new Set(before.map(({ name }) => nameOf(name)));
  const isLost = ({ name, takes }: Taking) => !known.has(nameOf(name)) && !names.has(nameOf(takes));
  return takings.some(isLost) ? -Infinity : wrongFrom(state.words, takenBackNames(takings));
}

function isAfterHead({ head, checkpoints }: Timeline, item: StoredItem): boolean {
  if (head !== null) return compareItems(item, head) > 0;
  const last = checkpoints.at(-1);
  return last === undefined || item.atMs >= last.fromAtMs;
}

function rewind(timeline: Timeline, toAtMs: number): { timeline: Timeline; fromAtMs: number } {
  const kept = timeline.checkpoints.filter((checkpoint) => checkpoint.fromAtMs <= toAtMs);
  const last = kept.at(-1);
  const { takings } = timeline;
  if (last === undefined) {
    return { timeline: { ...emptyTimeline(timeline.state.boothId), takings }, fromAtMs: -Infinity };
  }
  return { timeline: { state: last.state, head: null, checkpoints: kept, takings }, fromAtMs: last.fromAtMs };
}

function foldOn(timeline: Timeline, items: readonly StoredItem[]): Timeline {
  const takenBack = takenBackNames(timeline.takings);
  return items.reduce((folded, item) => fold(folded, item, isTakenBack(item, takenBack)), timeline);
}

function fold(timeline: Timeline, item: StoredItem, isOut: boolean): Timeline {
  const { state, checkpoints, takings } = timeline;
  const binAtMs = binOf(item.atMs);
  const last = checkpoints.at(-1);
  const isNewBin = last === undefined || last.fromAtMs < binAtMs;
  const kept = isNewBin ? withCheckpoint(checkpoints, { fromAtMs: binAtMs, state }) : checkpoints;
  const next = isOut ? reduceTakenBack(state, item) : reduceBooth(state, item);
  return { state: next, head: item, checkpoints: kept, takings };
}

function withCheckpoint(checkpoints: readonly Checkpoint[], next: Checkpoint): readonly Checkpoint[] {
  return [...checkpoints.filter((each) => each.fromAtMs >= next.fromAtMs - checkpointsMs), next];
}

/** Sorted, each item once. */
function inOrder(items: readonly StoredItem[]): readonly StoredItem[] {
  const sorted = [...items].sort(compareItems);
  return sorted.filter((item, at) => at === 0 || compareItems(item, sorted[at - 1] ?? item) !== 0);
}
