/**
 * Sessions and prints per five-minute bin, for the last day and a half before the newest fact.
 *
 * Each keeps its own instant, so that a booking's window may cut a bin anywhere.
 */
export type Bin = {
  /** When the bin begins, a whole multiple of `binMs`. */
  readonly atMs: number;
  readonly sessionsAtMs: readonly number[];
  readonly prints: readonly CountedPrint[];
};
export type CountedPrint = { readonly atMs: number; readonly pitches: number };
export type Counts = { readonly sessions: number; readonly pitches: number };

export const binMs = 5 * 60_000;

/** The longest event day with its set-up and its drive home, and the evening before. */
export const keepMs = 36 * 3_600_000;

/** The beginning of the bin that holds an instant. */
export function binOf(atMs: number): number {
  return Math.floor(atMs / binMs) * binMs;
}

/** Drops what lies more than `keepMs` before `headAtMs`; the same list when there is nothing to drop. */
export function keepRecent<T extends { readonly atMs: number }>(
  list: readonly T[],
  headAtMs: number,
): readonly T[] {
  const first = list.findIndex((entry) => entry.atMs >= headAtMs - keepMs);
  if (first === 0) return list;
  return first < 0 ? [] : list.slice(first);
}

/** Counts one session, finished at `atMs`; facts come in order. */
export function addSession(bins: readonly Bin[], atMs: number): readonly Bin[] {
  return changeBin(bins, atMs, (bin) => ({ ...bin, sessionsAtMs: [...bin.sessionsAtMs, atMs] }));
}

/** Counts one print job; facts come in order. */
export function addPrint(bins: readonly Bin[], print: CountedPrint): readonly Bin[] {
  return changeBin(bins, print.atMs, (bin) => ({ ...bin, prints: [...bin.prints, print] }));
}

function changeBin(bins: readonly Bin[], atMs: number, change: (bin: Bin) => Bin): readonly Bin[] {
  const beginsAtMs = binOf(atMs);
  const last = bins.at(-1);
  if (last?.atMs === beginsAtMs) return [...bins.slice(0, -1), change(last)];
  return [...keepRecent(bins, beginsAtMs), change({ atMs: beginsAtMs, sessionsAtMs: [], prints: [] })];
}

/** Sessions and pitches from `fromAtMs` on and before `toAtMs`, as far back as the bins reach. */
export function countsBetween(bins: readonly Bin[], fromAtMs: number, toAtMs: number): Counts {
  let sessions = 0;
  let pitches = 0;
  for (const bin of bins) {
    if (bin.atMs + binMs <= fromAtMs || bin.atMs >= toAtMs) continue;
    sessions += bin.sessionsAtMs.filter((atMs) => atMs >= fromAtMs && atMs < toAtMs).length;
    for (const print of bin.prints) {
      if (print.atMs >= fromAtMs && print.atMs < toAtMs) pitches += print.pitches;
    }
  }
  return { sessions, pitches };
}

/** Prints later than `atMs`, oldest first. */
export function printsAfter(bins: readonly Bin[], atMs: number): readonly CountedPrint[] {
  return bins
    .filter((bin) => bin.atMs + binMs > atMs)
    .flatMap((bin) => bin.prints.filter((print) => print.atMs > atMs));
}

/** Pitches used later than `atMs`. */
export function pitchesAfter(bins: readonly Bin[], atMs: number): number {
  return printsAfter(bins, atMs).reduce((sum, print) => sum + print.pitches, 0);
}
