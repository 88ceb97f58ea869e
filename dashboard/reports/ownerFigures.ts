import type { OwnerReport, StoredItem } from "@boothward/shared-types";
import type { AttributedSession } from "../booth/attribution.ts";
import { sessionsBetween, usesBetween } from "../booth/bins.ts";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import { pitchBases, pitchesBy } from "../booth/countLedger.ts";
import { differenceIn } from "../booth/difference.ts";
import { sessionBases } from "../booth/sessionWalk.ts";
import { isGuests, type EveningCounts } from "./countEvening.ts";
import { cutStretch, lengthOf, type Stretch } from "./stretches.ts";

const hourMs = 3_600_000;

/** From less than this nothing is said of the pace. */
const leastAroundMs = hourMs / 4;

/** A counter's first word after a silence comes within this time. */
const firstWordMs = 5 * 60_000;

/** Temperatures of one minute, over all thermometers at the printer. */
export type InsideMinute = {
  readonly atMs: number;
  readonly minC: number;
  readonly meanC: number;
  readonly maxC: number;
};

/** Paper that left the roll in the booking's time, what of it was wasted, and the rolls that were put in. */
export function paperOf(
  state: BoothState,
  facts: readonly StoredItem[],
  { fromAtMs, toAtMs }: BookedTime,
  kitSheets: number,
): OwnerReport["paper"] {
  const uses = usesBetween(state.bins, fromAtMs, toAtMs);
  const isIn = ({ atMs }: { readonly atMs: number }) => atMs >= fromAtMs && atMs < toAtMs;
  const wasted = { change: 0, test: 0, spoilt: 0 };
  for (const fact of facts) if (fact.kind === "waste" && isIn(fact)) wasted[fact.cause] += fact.pitches;
  const rolls = state.media.changes.flatMap(({ base }) => {
    const { atMs, sheets, by, basis } = base;
    const isRoll = basis === "fitted" || basis === "jumped" || basis === "assumed";
    return isRoll && isIn(base) ? [{ atMs, sheets, by, basis }] : [];
  });
  const sheetsUsed = uses.reduce((sum, use) => sum + (use.basis === "waste" ? use.pitches : use.counted), 0);
  return { sheetsUsed, wasted, kitSheets, rolls };
}

/** What each source saw in the guests' hours, beside what counts. */
export function countsOf(
  state: BoothState,
  held: BookedTime,
  { sessionsBy }: EveningCounts,
  throughAtMs: number,
): OwnerReport["counts"] {
  const { fromAtMs, toAtMs, openAtMs, closeAtMs } = held;
  const seen = sessionsBetween(state.bins, fromAtMs, toAtMs).filter(({ atMs }) => isGuests(atMs, held));
  const uses = usesBetween(state.bins, fromAtMs, toAtMs).filter(({ atMs }) => isGuests(atMs, held));
  const stretch = { fromAtMs, toAtMs, booking: { openAtMs, closeAtMs } };
  return {
    sessionsBy,
    sheetsBy: uses.some(({ basis }) => basis !== "waste") ? pitchesBy(state.counts) : null,
    sessions: sessionBases
      .map((by) => ({ by, count: seen.filter(({ basis }) => basis === by).length }))
      .filter(({ count }) => count > 0),
    sheets: pitchBases
      .map((by) => ({ by, count: sumOf(uses.filter(({ basis }) => basis === by)) }))
      .filter(({ count }) => count > 0),
    difference: differenceIn(state, stretch, throughAtMs),
  };
}

/** From the end of a session to its first sheet. A session that is a group of prints has no end of its own. */
export function waitsOf({ sessions, sessionsBy }: EveningCounts): OwnerReport["waits"] {
  if (sessionsBy === null || sessionsBy === "jobs") return null;
  const waits = sessions.flatMap(({ atMs, firstPrintAtMs }: AttributedSession) =>
    firstPrintAtMs === null ? [] : [{ atMs, waitMs: Math.max(0, firstPrintAtMs - atMs) }],
  );
  const sorted = [...waits].sort((a, b) => a.waitMs - b.waitMs);
  const [middle, longest] = [sorted[Math.floor(sorted.length / 2)], sorted.at(-1)];
  if (middle === undefined || longest === undefined) return null;
  return {
    ...{ known: sorted.length, medianMs: middle.waitMs },
    ...{ longestMs: longest.waitMs, longestAtMs: longest.atMs },
  };
}

/** Temperatures in the open hours; a minute is above the limit when the warmest thermometer was at any time. */
export function insideOf(
  minutes: readonly InsideMinute[],
  { openAtMs, closeAtMs }: BookedTime,
  limitC: number,
): OwnerReport["inside"] {
  const open = minutes.filter(({ atMs }) => atMs >= openAtMs && atMs < closeAtMs);
  if (open.length === 0) return null;
  return {
    minC: Math.min(...open.map(({ minC }) => minC)),
    meanC: open.reduce((sum, { meanC }) => sum + meanC, 0) / open.length,
    maxC: Math.max(...open.map(({ maxC }) => maxC)),
    ...{ limitC, minutes: open.length },
    aboveLimitMin: open.filter(({ maxC }) => maxC > limitC).length,
  };
}

/** What may have happened where nothing was heard, by the hour on both sides of it. */
export function gapsOf(
  state: BoothState,
  held: BookedTime,
  { sessions }: EveningCounts,
  unknown: readonly Stretch[],
  pauses: readonly Stretch[],
): OwnerReport["gaps"] {
  return unknown.map(({ fromAtMs, toAtMs }) => {
    const around = {
      fromAtMs: Math.max(held.openAtMs, fromAtMs - hourMs),
      toAtMs: Math.min(held.closeAtMs, toAtMs + hourMs),
    };
    const known = cutStretch(around, pauses);
    const seen = sessions.filter(({ atMs }) =>
      known.some((each) => atMs >= each.fromAtMs && atMs < each.toAtMs),
    );
    const knownMs = lengthOf(known);
    const estimate = Math.round((seen.length * (toAtMs - fromAtMs)) / knownMs);
    return {
      ...{ fromAtMs, toAtMs, sessionsEstimate: knownMs < leastAroundMs ? null : estimate },
      sheetsAfter: counterAfter(state, toAtMs),
    };
  });
}

function counterAfter({ bins }: BoothState, atMs: number): number | null {
  const uses = usesBetween(bins, atMs, atMs + firstWordMs);
  return uses.find(({ basis }) => basis === "counter")?.pitches ?? null;
}

function sumOf(uses: readonly { readonly pitches: number }[]): number {
  return uses.reduce((sum, { pitches }) => sum + pitches, 0);
}
