import type { StoredItem } from "@boothward/shared-types";
import type { Bin } from "../booth/bins.ts";
import { emptyBooth, reduceBooth, type BoothState } from "../booth/boothState.ts";
import { compareItems } from "../booth/compareItems.ts";
import type { Stop } from "../booth/printerLedger.ts";
import { isTakenBack, takenBackNames, takingsIn } from "../booth/takenBack.ts";

/**
 * The state of a booth after an evening's facts, given in any order, as if what people took back had never been
 * said. A state forgets what is a day and a half old; an evening is counted whole, so that its bins and stops are
 * kept however long it was and however late its last fact.
 */
export function foldEvening(boothId: string, given: readonly StoredItem[]): BoothState {
  const facts = standingFacts(given);
  const bins: Bin[] = [];
  const stops = new Map<string, Stop>();
  let state = emptyBooth(boothId);
  for (const fact of facts) {
    const next = reduceBooth(state, fact);
    if (next.bins !== state.bins) bins.push(...forgotten(state.bins, next.bins));
    if (next.printing !== state.printing)
      for (const stop of next.printing.stops) stops.set(`${stop.queue} ${stop.fromAtMs}`, stop);
    state = next;
  }
  return {
    ...state,
    bins: [...bins, ...state.bins],
    printing: { ...state.printing, stops: [...stops.values()] },
  };
}

/** Facts in their one order, each once, without what was taken back. */
export function standingFacts(given: readonly StoredItem[]): StoredItem[] {
  const takenBack = takenBackNames(takingsIn(given));
  const sorted = given.filter((fact) => !isTakenBack(fact, takenBack)).sort(compareItems);
  return sorted.filter((fact, at) => at === 0 || compareItems(fact, sorted[at - 1] ?? fact) !== 0);
}

/** Bins fall off at the old end alone. */
function forgotten(before: readonly Bin[], after: readonly Bin[]): readonly Bin[] {
  const first = after[0];
  if (first === undefined || before[0]?.atMs === first.atMs) return [];
  return before.filter((bin) => bin.atMs < first.atMs);
}
