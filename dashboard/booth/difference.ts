import type { Tally } from "@boothward/shared-types";
import { sameDeedMs } from "./authorities.ts";
import { binMs, binOf, sessionsBetween, usesBetween, type Use } from "./bins.ts";
import type { BoothState } from "./boothState.ts";
import { pitchBases } from "./countLedger.ts";
import { countedSessions, type Stretch } from "./sessionAuthority.ts";
import { sessionBases } from "./sessionWalk.ts";

/** Something counted at an instant. */
type Count = { readonly atMs: number; readonly amount: number };

/** Two sources may part by so much within half an hour: pieces, share of what was counted. */
const tolerated = { pieces: 2, share: 0.03 };
const withinMs = 30 * 60_000;

/**
 * The first difference of a stretch between what counts and another source: both parted by more than they may
 * within half an hour. Sources tell of one print up to three minutes apart; so much is never a difference.
 * Null: they agree.
 */
export function differenceIn(
  state: Pick<BoothState, "bins" | "counts">,
  stretch: Stretch,
  atMs: number,
): Tally["difference"] {
  const found = [...sessionPairs(state, stretch), ...pitchPairs(state, stretch)].flatMap((pair) => {
    const first = pair.other[0];
    if (first === undefined) return [];
    // A source that begins later is compared from its first word on.
    const counted = pair.counted.filter((each) => each.atMs >= first.atMs - sameDeedMs);
    const sinceAtMs = partedSince(counted, pair.other, atMs - sameDeedMs);
    if (sinceAtMs === null) return [];
    const { quantity, otherBy } = pair;
    return [{ quantity, counted: sumOf(counted), other: sumOf(pair.other), otherBy, sinceAtMs }];
  });
  return found.reduce<Tally["difference"]>((a, b) => (a === null || b.sinceAtMs < a.sinceAtMs ? b : a), null);
}

type Pair = {
  readonly quantity: "sessions" | "pitches";
  readonly otherBy: string;
  readonly counted: readonly Count[];
  readonly other: readonly Count[];
};

function sessionPairs(state: Pick<BoothState, "bins" | "counts">, stretch: Stretch): readonly Pair[] {
  const { sessions, by } = countedSessions(state, stretch);
  const seen = sessionsBetween(state.bins, stretch.fromAtMs, stretch.toAtMs);
  const counted = sessions.map(one);
  return sessionBases
    .filter((basis) => basis !== by)
    .map((basis) => ({
      ...{ quantity: "sessions" as const, otherBy: basis, counted },
      other: seen.filter((session) => session.basis === basis).map(one),
    }));
}

function pitchPairs({ bins }: Pick<BoothState, "bins">, stretch: Stretch): readonly Pair[] {
  const uses = usesBetween(bins, stretch.fromAtMs, stretch.toAtMs);
  const counted = uses.map(countedOf);
  return pitchBases
    .filter((basis) => uses.some((use) => use.basis === basis && use.counted !== use.pitches))
    .map((basis) => ({ quantity: "pitches", otherBy: basis, counted, other: otherCounts(uses, basis) }));
}

/** What a source of pitches says; of a printer that it does not see, what counts. */
function otherCounts(uses: readonly Use[], basis: Use["basis"]): readonly Count[] {
  const isPrinters = basis === "counter" || basis === "jobs";
  const queues = new Set(uses.filter((use) => use.basis === basis).map((use) => use.queue));
  return uses.flatMap((use) => {
    if (use.basis === basis) return [{ atMs: use.atMs, amount: use.pitches }];
    return isPrinters && !queues.has(use.queue) ? [countedOf(use)] : [];
  });
}

/**
 * The beginning of the first half hour in which two counts parted by too much; null: they never did. How far
 * they are apart at an instant is taken in the three minutes after it: a count that lags has caught up by then.
 */
function partedSince(counted: readonly Count[], other: readonly Count[], untilAtMs: number): number | null {
  const gaps = gapsAt(counted, other, untilAtMs);
  for (const [at, now] of gaps.entries()) {
    for (let before = at - 1; before >= 0; before--) {
      const then = gaps[before];
      if (then === undefined || now.atMs - then.atMs > withinMs) break;
      const most = Math.max(tolerated.pieces, tolerated.share * (now.counted - then.counted));
      if (now.least - then.most > most || then.least - now.most > most) return then.atMs;
    }
  }
  return null;
}

type Gap = {
  readonly atMs: number;
  /** By how much the count is above the other, at least and at most. */
  readonly least: number;
  readonly most: number;
  readonly counted: number;
};

/** How far two counts are apart at each whole five minutes, and at the end. */
function gapsAt(counted: readonly Count[], other: readonly Count[], untilAtMs: number): readonly Gap[] {
  const steps = [
    ...counted.map(({ atMs, amount }) => ({ atMs, amount, sign: 1 })),
    ...other.map(({ atMs, amount }) => ({ atMs, amount, sign: -1 })),
  ].sort((a, b) => a.atMs - b.atMs);
  const first = steps[0]?.atMs;
  if (first === undefined || untilAtMs < first) return [];
  const gaps: Gap[] = [{ atMs: first, least: 0, most: 0, counted: 0 }];
  let next = 0;
  let gap = 0;
  let sum = 0;
  for (const atMs of [...wholeBins(first, untilAtMs), untilAtMs]) {
    for (; (steps[next]?.atMs ?? Infinity) <= atMs; next++) {
      const { amount, sign } = steps[next] ?? { amount: 0, sign: 1 };
      gap += amount * sign;
      if (sign > 0) sum += amount;
    }
    gaps.push({ atMs, ...settled(steps, next, gap, atMs + sameDeedMs), counted: sum });
  }
  return gaps;
}

function settled(steps: readonly (Count & { sign: number })[], from: number, gap: number, toAtMs: number) {
  let [now, least, most] = [gap, gap, gap];
  for (let at = from; (steps[at]?.atMs ?? Infinity) <= toAtMs; at++) {
    const { amount, sign } = steps[at] ?? { amount: 0, sign: 1 };
    now += amount * sign;
    least = Math.min(least, now);
    most = Math.max(most, now);
  }
  return { least, most };
}

function wholeBins(fromAtMs: number, toAtMs: number): readonly number[] {
  const first = binOf(fromAtMs) + binMs;
  const count = Math.max(0, Math.ceil((toAtMs - first) / binMs));
  return Array.from({ length: count }, (_, at) => first + at * binMs);
}

function one({ atMs }: { readonly atMs: number }): Count {
  return { atMs, amount: 1 };
}

function countedOf({ atMs, counted }: Use): Count {
  return { atMs, amount: counted };
}

function sumOf(counts: readonly Count[]): number {
  return counts.reduce((sum, { amount }) => sum + amount, 0);
}
