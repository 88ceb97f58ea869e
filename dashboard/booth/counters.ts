import type { StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";

/** What the counter of one print queue last showed. */
export type CounterSeen = {
  readonly queue: string;
  readonly source: string;
  /** When it last spoke: what it tells next was printed since. */
  readonly atMs: number;
  readonly pitchesEver: number;
  /** Pitches that were counted by their jobs while the counter's source was away: it will tell of them again. */
  readonly owed: number;
};

type CounterItem = Extract<StoredItem, { kind: "counter" }>;

/** Printers that count in 32 bits begin again at 0 after this one (RFC 3805: prtMarkerLifeCount is a Counter32). */
const widest = 2 ** 32;

/** A counter this near to its width or to 0 may have gone round. */
const roundMargin = 1_000;

/** Two sources may show one counter a sheet or two apart: a drop of so little is none. */
const jitter = 3;

/** What a counter that began again shows at the first look was printed since, if it is no more than a long job. */
const mostSinceReset = 12;

/** More than any roll holds: not printed since the last look, but another printer or another counter. */
const mostAtOnce = 5_000;

/**
 * Takes in a counter, and says how many pitches it moved. What it shows first is a beginning. After a drop, as when
 * a spooler restarts, it began again at 0; what is no small number then is another counter's, and so is a leap
 * that no roll could feed.
 */
export function foldCounter(
  counters: readonly CounterSeen[],
  { queue, source, pitchesEver, atMs }: CounterItem,
): { readonly counters: readonly CounterSeen[]; readonly moved: number } {
  const old = counters.find((each) => each.queue === queue) ?? null;
  const drop = old === null ? 0 : old.pitchesEver - pitchesEver;
  if (old !== null && drop > 0 && drop <= jitter && pitchesEver > 0) return { counters, moved: 0 };
  const step = old === null ? 0 : stepOf(old.pitchesEver, pitchesEver);
  const moved = Math.max(0, step - (old?.owed ?? 0));
  const entry = { queue, source, atMs, pitchesEver, owed: 0 };
  return { counters: withEntry(counters, (each) => each.queue, entry), moved };
}

/** The counters after a job was counted in the place of one whose source is away. */
export function oweToCounter(
  counters: readonly CounterSeen[],
  queue: string | null,
  pitches: number,
): readonly CounterSeen[] {
  return counters.map((each) => (each.queue === queue ? { ...each, owed: each.owed + pitches } : each));
}

/** How many pitches were printed between two looks, as far as they tell. */
function stepOf(from: number, to: number): number {
  if (from > widest - roundMargin && to < roundMargin) return to + widest - from;
  if (to < from) return to <= mostSinceReset ? to : 0;
  return to - from > mostAtOnce ? 0 : to - from;
}
