import type { StoredItem } from "@boothward/shared-types";
import { withAuthority } from "./authorities.ts";
import { addSession, addUse, type Bin, type Use } from "./bins.ts";
import { foldCounter, oweToCounter } from "./counters.ts";
import {
  changeAuthority,
  countUse,
  isCountedByCounter,
  pitchesBy,
  type CountLedger,
  type SeenUse,
} from "./countLedger.ts";
import { foldPitches, foldWaste } from "./foldPaper.ts";
import type { SourceFault } from "./machineSeen.ts";
import type { MediaLedger } from "./mediaLedger.ts";
import { foldFinished, type Finishing } from "./printingEvidence.ts";
import { isKnownId, rememberId, type RecentIds } from "./recentIds.ts";

/** The parts of a booth's state that sessions, prints and counters move, and what they read. */
export type Counting = {
  readonly bins: readonly Bin[];
  readonly counts: CountLedger;
  readonly media: MediaLedger;
  readonly finishings: readonly Finishing[];
  readonly faults: readonly SourceFault[];
  readonly sessionIds: RecentIds;
  readonly printIds: RecentIds;
};

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** Takes in a session, once each. */
export function countSession(state: Counting, item: ItemOf<"session">): Partial<Counting> {
  const { atMs, sessionId, basis } = item;
  const id = `${basis} ${sessionId}`;
  // Groups of jobs are made where they are asked for: a source that groups them itself tells nothing more.
  if (basis === "jobs" || isKnownId(state.sessionIds, id)) return {};
  return {
    bins: addSession(state.bins, { atMs, basis, sessionId }),
    sessionIds: rememberId(state.sessionIds, id),
  };
}

/** Takes in a print, once each: it counts when no better source sees the same paper. */
export function countPrint(state: Counting, item: ItemOf<"print">): Partial<Counting> {
  const { atMs, printId, pitches, basis, queue, sessionId, copies } = item;
  const id = `${basis} ${printId}`;
  if (isKnownId(state.printIds, id)) return {};
  const printIds = rememberId(state.printIds, id);
  const use = { atMs, pitches, basis, queue, sessionId, copies };
  return { printIds, ...(isStandIn(state, use) ? countStandIn(state, use) : countSeen(state, use)) };
}

/** Whether a job is all that can be seen of what the queue's counter counts: the counter is out of sight. */
function isStandIn({ counts, faults }: Counting, use: SeenUse): boolean {
  const counter = counts.counters.find((each) => each.queue === use.queue);
  const isLost = faults.some(({ source }) => source === counter?.source);
  return use.basis === "jobs" && isLost && isCountedByCounter(counts, use);
}

/** Such a job counts, and the counter is not to tell of it again. */
function countStandIn(state: Counting, use: SeenUse): Partial<Counting> {
  const { counts, bins, media, finishings } = state;
  const { atMs, pitches } = use;
  return {
    counts: { ...counts, counters: oweToCounter(counts.counters, use.queue, pitches) },
    bins: addUse(bins, { ...use, counted: pitches }),
    media: foldPitches(media, pitches, atMs),
    finishings: foldFinished(finishings, use.queue ?? "", pitches, atMs),
  };
}

/** Takes in what a counter of a printer shows. */
export function countCounter(state: Counting, item: ItemOf<"counter">): Partial<Counting> {
  const { counters, moved } = foldCounter(state.counts.counters, item);
  const counts = { ...state.counts, counters };
  if (moved === 0) return { counts };
  const { atMs, queue } = item;
  const use = { atMs, pitches: moved, basis: "counter" as const, queue, sessionId: null, copies: null };
  const before = state.counts.counters.find((each) => each.queue === queue);
  return countSeen({ ...state, counts }, use, before?.atMs);
}

function countSeen(state: Counting, use: SeenUse, sinceAtMs?: number): Partial<Counting> {
  const { ledger, counted } = countUse(state.counts, use, state.bins, sinceAtMs);
  const isPrinters = use.basis === "counter" || use.basis === "jobs";
  const { finishings } = state;
  return {
    counts: ledger,
    bins: addUse(state.bins, { ...use, counted }),
    media: counted > 0 ? foldPitches(state.media, counted, use.atMs) : state.media,
    finishings: isPrinters ? foldFinished(finishings, use.queue ?? "", use.pitches, use.atMs) : finishings,
  };
}

/** Takes in what a person wants counted by. */
export function changeCounting(state: Counting, item: ItemOf<"authority">): Partial<Counting> {
  const { atMs } = item;
  const authorities = withAuthority(state.counts.authorities, item);
  const { ledger, counted } = changeAuthority(state.counts, authorities, atMs, state.bins);
  const basis = pitchesBy(ledger);
  if (counted === 0 || basis === null) return { counts: ledger };
  const use: Use = { ...noUse, atMs, basis, counted };
  return {
    counts: ledger,
    bins: addUse(state.bins, use),
    media: foldPitches(state.media, counted, atMs),
  };
}

const noUse = { pitches: 0, queue: null, sessionId: null, copies: null };

/** Takes in sheets that went to no guest. */
export function countWaste(state: Counting, item: ItemOf<"waste">): Partial<Counting> {
  const { atMs, pitches } = item;
  return {
    bins: addUse(state.bins, { ...noUse, atMs, pitches, basis: "waste", counted: 0 }),
    media: foldWaste(state.media, item),
  };
}
