import type { StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";

/** What the counter of one print queue last showed. */
export type CounterSeen = {
  readonly queue: string;
  readonly source: string;
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

/** More than any roll holds: not printed since the last look, but another printer or another counter. */
const mostAtOnce = 5_000;

/**
 * Takes in a counter, and says how many pitches it moved. What it shows first is a beginning, and so is what it
 * shows after a drop, as when a spooler restarts, and after a leap that no roll could feed.
 */
export function foldCounter(
  counters: readonly CounterSeen[],
  { queue, source, pitchesEver }: CounterItem,
): { readonly counters: readonly CounterSeen[]; readonly moved: number } {
  const old = counters.find((each) => each.queue === queue) ?? null;
  const step = old === null ? 0 : stepOf(old.pitchesEver, pitchesEver);
  if (old !== null && step < 0 && step >= -jitter && pitchesEver > 0) return { counters, moved: 0 };
  const isBeginning = old === null || step < 0 || step > mostAtOnce;
  const moved = isBeginning ? 0 : Math.max(0, step - old.owed);
  const entry = { queue, source, pitchesEver, owed: 0 };
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

function stepOf(from: number, to: number): number {
  const isRound = from > widest - roundMargin && to < roundMargin;
  return isRound ? to + widest - from : to - from;
}
