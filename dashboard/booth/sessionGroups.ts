import type { Use } from "./bins.ts";

/** Prints that came close after each other; `atMs` is that of the first. */
export type UseGroup = { readonly atMs: number; readonly pitches: number };

/**
 * A longer pause begins another session. Sheets of one session follow each other by 8 to 20 s, sessions by 60 to
 * 100 s from door to door (common practice, no source); between them lies this.
 */
export const groupGapMs = 40_000;

/** By so long after a session's first sheet the next guests have theirs: a line at the booth is not one session. */
const mostGroupMs = 100_000;

/** Counted prints, oldest first, in groups that are taken for sessions. */
export function groupUses(uses: readonly Use[]): readonly UseGroup[] {
  const groups: { atMs: number; lastAtMs: number; pitches: number }[] = [];
  for (const { atMs, counted } of uses) {
    if (counted <= 0) continue;
    const last = groups.at(-1);
    const goesOn = last !== undefined && atMs - last.lastAtMs <= groupGapMs;
    if (goesOn && atMs - last.atMs <= mostGroupMs) {
      last.lastAtMs = atMs;
      last.pitches += counted;
    } else {
      groups.push({ atMs, lastAtMs: atMs, pitches: counted });
    }
  }
  return groups.map(({ atMs, pitches }) => ({ atMs, pitches }));
}
