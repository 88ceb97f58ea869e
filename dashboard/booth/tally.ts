import type { Tally } from "@boothward/shared-types";
import { usesBetween } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { attribute } from "./attribution.ts";
import { pitchesBy } from "./countLedger.ts";
import { differenceIn } from "./difference.ts";
import type { Stretch } from "./sessionAuthority.ts";

/**
 * What was counted in a stretch of a booth's time up to `atMs`, each by its authority, and whether another
 * source counts something else. A session of the last three minutes without a print may still get one: it is
 * not yet called digital only.
 */
export function tallyOf(state: Pick<BoothState, "bins" | "counts">, stretch: Stretch, atMs: number): Tally {
  const until = { ...stretch, toAtMs: Math.min(stretch.toAtMs, atMs + 1) };
  const { by, sessions, reprints, tests } = attribute(state, until);
  const uses = usesBetween(state.bins, until.fromAtMs, until.toAtMs);
  const pitches = sumOf(uses);
  return {
    ...{ sessions: sessions.length, pitches, sessionsBy: by },
    pitchesBy: uses.some((use) => use.basis !== "waste") ? pitchesBy(state.counts) : null,
    ...{ reprints: sumOf(reprints), testPitches: sumOf(tests) },
    digitalOnly: sessions.filter((each) => each.pitches === 0 && isOver(each.atMs, atMs)).length,
    difference: differenceIn(state, until, atMs),
  };
}

/** Prints of a session come within this time. */
const printsWithinMs = 180_000;

function isOver(sessionAtMs: number, atMs: number): boolean {
  return atMs - sessionAtMs > printsWithinMs;
}

function sumOf(uses: readonly { readonly counted: number }[]): number {
  return uses.reduce((sum, use) => sum + use.counted, 0);
}
