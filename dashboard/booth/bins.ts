import type { PitchBasis, SessionBasis } from "@boothward/shared-types";

/**
 * Sessions and uses of paper per five-minute bin, for the last day and a half before the newest fact, whatever
 * they were seen by: which of them count is asked later.
 *
 * Each keeps its own instant, so that a booking's window may cut a bin anywhere. A bin that is full is followed
 * by another of the same five minutes, so that taking in one more fact never copies many.
 */
export type Bin = {
  /** When the bin begins, a whole multiple of `binMs`. */
  readonly atMs: number;
  readonly sessions: readonly SessionSeen[];
  readonly uses: readonly Use[];
};

/** Guests at the booth once, as one source saw it; `atMs` is when they finished. */
export type SessionSeen = {
  readonly atMs: number;
  readonly basis: Exclude<SessionBasis, "jobs">;
  readonly sessionId: string;
};

/** Paper used, as one source saw it; `waste` went to no guest and is counted for the roll alone. */
export type Use = {
  readonly atMs: number;
  readonly pitches: number;
  readonly basis: PitchBasis | "waste";
  readonly queue: string | null;
  /** The session it belongs to, where the source knows. */
  readonly sessionId: string | null;
  /** Pieces it came to; null: not told. */
  readonly copies: number | null;
  /** Pitches of it that count: 0 where a better source sees the same paper. */
  readonly counted: number;
};

export type Counts = { readonly sessions: number; readonly pitches: number };
export type CountedPrint = { readonly atMs: number; readonly pitches: number };

export const binMs = 5 * 60_000;

/** The longest event day with its set-up and its drive home, and the evening before. */
export const keepMs = 36 * 3_600_000;

/** More than five minutes of a busy evening have; a source that runs wild fills several. */
const mostInBin = 64;

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

/** Takes in one session; facts come in order. */
export function addSession(bins: readonly Bin[], session: SessionSeen): readonly Bin[] {
  return changeBin(bins, session.atMs, (bin) => ({ ...bin, sessions: [...bin.sessions, session] }));
}

/** Takes in one use of paper; facts come in order. */
export function addUse(bins: readonly Bin[], use: Use): readonly Bin[] {
  return changeBin(bins, use.atMs, (bin) => ({ ...bin, uses: [...bin.uses, use] }));
}

function changeBin(bins: readonly Bin[], atMs: number, change: (bin: Bin) => Bin): readonly Bin[] {
  const beginsAtMs = binOf(atMs);
  const last = bins.at(-1);
  if (last?.atMs === beginsAtMs && last.sessions.length + last.uses.length < mostInBin) {
    return [...bins.slice(0, -1), change(last)];
  }
  return [...keepRecent(bins, beginsAtMs), change({ atMs: beginsAtMs, sessions: [], uses: [] })];
}

/** Sessions of every source from `fromAtMs` on and before `toAtMs`, oldest first. */
export function sessionsBetween(
  bins: readonly Bin[],
  fromAtMs: number,
  toAtMs: number,
): readonly SessionSeen[] {
  return binsIn(bins, fromAtMs, toAtMs).flatMap((bin) =>
    bin.sessions.filter(({ atMs }) => atMs >= fromAtMs && atMs < toAtMs),
  );
}

/** Uses that every source saw from `fromAtMs` on and before `toAtMs`, oldest first. */
export function usesBetween(bins: readonly Bin[], fromAtMs: number, toAtMs: number): readonly Use[] {
  return binsIn(bins, fromAtMs, toAtMs).flatMap((bin) =>
    bin.uses.filter(({ atMs }) => atMs >= fromAtMs && atMs < toAtMs),
  );
}

/** Sessions, by the best source that saw any, and pitches that count, from `fromAtMs` on and before `toAtMs`. */
export function countsBetween(bins: readonly Bin[], fromAtMs: number, toAtMs: number): Counts {
  const seen = sessionsBetween(bins, fromAtMs, toAtMs);
  const of = (basis: SessionSeen["basis"]) => seen.filter((session) => session.basis === basis).length;
  const pitches = usesBetween(bins, fromAtMs, toAtMs).reduce((sum, use) => sum + use.counted, 0);
  return { sessions: of("hook") || of("layouts") || of("shots"), pitches };
}

/** Prints that count, later than `atMs`, oldest first. */
export function printsAfter(bins: readonly Bin[], atMs: number): readonly CountedPrint[] {
  return usesAfter(bins, atMs)
    .filter((use) => use.counted > 0)
    .map((use) => ({ atMs: use.atMs, pitches: use.counted }));
}

/** Pitches that left the roll later than `atMs`, waste with them. */
export function pitchesAfter(bins: readonly Bin[], atMs: number): number {
  return usesAfter(bins, atMs).reduce((sum, use) => sum + offRoll(use), 0);
}

/** Pitches of a use that left the roll, as far as it is the one that counts. */
function offRoll(use: Use): number {
  return use.basis === "waste" ? use.pitches : use.counted;
}

function usesAfter(bins: readonly Bin[], atMs: number): readonly Use[] {
  return bins
    .filter((bin) => bin.atMs + binMs > atMs)
    .flatMap((bin) => bin.uses.filter((use) => use.atMs > atMs));
}

function binsIn(bins: readonly Bin[], fromAtMs: number, toAtMs: number): readonly Bin[] {
  return bins.filter((bin) => bin.atMs + binMs > fromAtMs && bin.atMs < toAtMs);
}
