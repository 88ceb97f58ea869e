import type { StoredItem } from "@boothward/shared-types";
import { binOf } from "./bins.ts";
import { emptyBooth, reduceBooth, type BoothState } from "./boothState.ts";
import { compareItems } from "./compareItems.ts";

/**
 * A booth's state with the checkpoints it can be wound back to, so that a fact which comes late is folded
 * where it belongs: whatever the order of arrival, the state is that of all items in their one order.
 */
export type Timeline = {
  readonly state: BoothState;
  /** The last item folded; null before the first. */
  readonly head: StoredItem | null;
  /** Oldest first. */
  readonly checkpoints: readonly Checkpoint[];
};

/** The state of everything before `fromAtMs`, the beginning of a bin. Plain JSON: it may be stored and resumed from. */
export type Checkpoint = { readonly fromAtMs: number; readonly state: BoothState };

/** Gives all stored items of the booth at or after this instant, in any order; `-Infinity` for all there are. */
export type LoadSince = (fromAtMs: number) => readonly StoredItem[] | Promise<readonly StoredItem[]>;

/** A link that was down longer than an event costs one rebuild from the store. */
const checkpointsMs = 12 * 3_600_000;

/** The timeline of a booth of which nothing has been heard. */
export function emptyTimeline(boothId: string): Timeline {
  return { state: emptyBooth(boothId), head: null, checkpoints: [] };
}

/**
 * The timeline with these items in it, in whatever order they came; they must be in the store already.
 *
 * Usually they follow the head and are folded on. Otherwise it winds back to the checkpoint before the
 * earliest and folds again what the store gives, which may hold these and newer items too. One call per booth
 * at a time.
 */
export async function foldItems(
  timeline: Timeline,
  newItems: readonly StoredItem[],
  loadSince: LoadSince,
): Promise<Timeline> {
  const items = inOrder(newItems);
  const first = items[0];
  if (first === undefined) return timeline;
  if (isAfterHead(timeline, first)) return items.reduce(fold, timeline);
  const rewound = rewind(timeline, first.atMs);
  return inOrder(await loadSince(rewound.fromAtMs)).reduce(fold, rewound.timeline);
}

/** The timeline of everything stored, from the first item, or from a checkpoint kept earlier on. */
export async function rebuildTimeline(
  boothId: string,
  loadSince: LoadSince,
  checkpoint: Checkpoint | null = null,
): Promise<Timeline> {
  const start: Timeline =
    checkpoint === null
      ? emptyTimeline(boothId)
      : { state: checkpoint.state, head: null, checkpoints: [checkpoint] };
  return inOrder(await loadSince(checkpoint?.fromAtMs ?? -Infinity)).reduce(fold, start);
}

function isAfterHead({ head, checkpoints }: Timeline, item: StoredItem): boolean {
  if (head !== null) return compareItems(item, head) > 0;
  const last = checkpoints.at(-1);
  return last === undefined || item.atMs >= last.fromAtMs;
}

function rewind(timeline: Timeline, toAtMs: number): { timeline: Timeline; fromAtMs: number } {
  const kept = timeline.checkpoints.filter((checkpoint) => checkpoint.fromAtMs <= toAtMs);
  const last = kept.at(-1);
  if (last === undefined) return { timeline: emptyTimeline(timeline.state.boothId), fromAtMs: -Infinity };
  return { timeline: { state: last.state, head: null, checkpoints: kept }, fromAtMs: last.fromAtMs };
}

function fold({ state, checkpoints }: Timeline, item: StoredItem): Timeline {
  const binAtMs = binOf(item.atMs);
  const last = checkpoints.at(-1);
  const isNewBin = last === undefined || last.fromAtMs < binAtMs;
  const kept = isNewBin ? withCheckpoint(checkpoints, { fromAtMs: binAtMs, state }) : checkpoints;
  return { state: reduceBooth(state, item), head: item, checkpoints: kept };
}

function withCheckpoint(checkpoints: readonly Checkpoint[], next: Checkpoint): readonly Checkpoint[] {
  return [...checkpoints.filter((each) => each.fromAtMs >= next.fromAtMs - checkpointsMs), next];
}

/** Sorted, each item once. */
function inOrder(items: readonly StoredItem[]): readonly StoredItem[] {
  const sorted = [...items].sort(compareItems);
  return sorted.filter((item, at) => at === 0 || compareItems(item, sorted[at - 1] ?? item) !== 0);
}
