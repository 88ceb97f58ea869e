import type { FaultWord, Readiness, StoredItem } from "@boothward/shared-types";
import { withAuthority } from "./authorities.ts";
import { addSession, addUse, binOf, type Bin, type Use } from "./bins.ts";
import { oweToCounter, foldCounter } from "./counters.ts";
import {
  changeAuthority,
  countUse,
  isCountedByCounter,
  noCounts,
  pitchesBy,
  type CountLedger,
  type SeenUse,
} from "./countLedger.ts";
import { withEntry } from "./keyed.ts";
import {
  emptyMedia,
  foldCorrection,
  foldEmptySaid,
  foldMeter,
  foldPitches,
  foldRollDenied,
  foldRollFitted,
  foldRollTakenOff,
  foldWaste,
  type MediaLedger,
} from "./mediaLedger.ts";
import { isPersons, withWord, type PersonsWord } from "./personsWords.ts";
import { foldPrinterState, noPrinters, type PrinterLedger } from "./printerLedger.ts";
import { saysEmpty } from "./printerReasons.ts";
import { foldFinished, type Finishing } from "./printingEvidence.ts";
import {
  foldHost,
  foldInside,
  foldOutside,
  foldQueue,
  forgetOldReadings,
  noReadings,
  type Readings,
} from "./readings.ts";
import { isKnownId, rememberId, type RecentIds } from "./recentIds.ts";

/**
 * All that is known of a booth after its items up to `headAtMs`, and nothing else: no settings, no plan, no
 * clock. Plain JSON. States share their unchanged parts.
 */
export type BoothState = {
  readonly boothId: string;
  /** True time of the last item folded; null before the first. */
  readonly headAtMs: number | null;
  readonly agent: AgentSeen | null;
  readonly bins: readonly Bin[];
  readonly counts: CountLedger;
  readonly media: MediaLedger;
  readonly printing: PrinterLedger;
  readonly finishings: readonly Finishing[];
  readonly readings: Readings;
  readonly power: PowerSeen | null;
  readonly faults: readonly SourceFault[];
  readonly readiness: readonly ReadinessChange[];
  readonly extensions: readonly Extension[];
  /** What people said, in its order, also what was taken back. */
  readonly words: readonly PersonsWord[];
  readonly sessionIds: RecentIds;
  readonly printIds: RecentIds;
};

export type AgentSeen = {
  readonly startedAtMs: number;
  readonly version: string;
  readonly hostName: string;
  readonly scenario: string | null;
};
export type PowerSeen = {
  readonly isOnMains: boolean;
  readonly batteryPct: number | null;
  /** When it went on mains, or on battery. */
  readonly sinceAtMs: number;
  readonly atMs: number;
};
export type SourceFault = {
  readonly source: string;
  readonly fault: FaultWord;
  readonly detail: string | null;
  readonly sinceAtMs: number;
};
export type ReadinessChange = { readonly atMs: number; readonly to: Readiness };
export type Extension = { readonly atMs: number; readonly bookingId: string; readonly closeAtMs: number };

/** A season of packing and unpacking; older changes matter to reports, which read the store. */
const changesKept = 400;

/** A booth of which nothing has been heard. */
export function emptyBooth(boothId: string): BoothState {
  return {
    boothId,
    headAtMs: null,
    agent: null,
    bins: [],
    counts: noCounts,
    media: emptyMedia,
    printing: noPrinters,
    finishings: [],
    readings: noReadings,
    power: null,
    faults: [],
    readiness: [],
    extensions: [],
    words: [],
    sessionIds: [],
    printIds: [],
  };
}

/**
 * The state after one more item. Items come in the order of `compareItems`; the timeline sees to that, and to
 * what was taken back. What this version does not know leaves the state as it was.
 */
export function reduceBooth(state: BoothState, item: StoredItem): BoothState {
  const now = atMoment(state, item.atMs);
  const words = isPersons(item) ? { words: withWord(now.words, item, false) } : {};
  return { ...now, ...words, ...changed(now, item) };
}

/** The state after a person's word that was taken back: as if it had never been said, but for its name. */
export function reduceTakenBack(state: BoothState, item: StoredItem): BoothState {
  const now = atMoment(state, item.atMs);
  return isPersons(item) ? { ...now, words: withWord(now.words, item, true) } : now;
}

/** The state moved on to an instant, before what happened then. */
function atMoment(state: BoothState, atMs: number): BoothState {
  const isNewBin = state.headAtMs === null || binOf(state.headAtMs) !== binOf(atMs);
  const readings = isNewBin ? forgetOldReadings(state.readings, binOf(atMs)) : state.readings;
  return { ...state, readings, headAtMs: atMs };
}

function changed(state: BoothState, item: StoredItem): Partial<BoothState> {
  const { readings } = state;
  switch (item.kind) {
    case "session":
      return countSession(state, item);
    case "print":
      return countPrint(state, item);
    case "printerState":
      return {
        printing: foldPrinterState(state.printing, item),
        media: foldEmptySaid(state.media, saysEmpty(item.reasons), item.atMs),
      };
    case "media":
      return { media: foldMeter(state.media, item, state.bins) };
    case "counter":
      return countCounter(state, item);
    case "authority":
      return changeCounting(state, item);
    case "rollFitted":
      return { media: foldRollFitted(state.media, item) };
    case "rollTakenOff":
      return { media: foldRollTakenOff(state.media, item) };
    case "rollDenied":
      return { media: foldRollDenied(state.media, item) };
    case "correction":
      return { media: foldCorrection(state.media, item) };
    case "waste":
      return countWaste(state, item);
    case "readiness":
      return { readiness: withLast(state.readiness, { atMs: item.atMs, to: item.to }) };
    case "extended":
      return { extensions: withLast(state.extensions, extensionOf(item)) };
    case "power":
      return { power: powerOf(state.power, item) };
    case "sourceState":
      return { faults: faultsAfter(state.faults, item) };
    case "agentStarted":
      // Its sources start afresh and say their faults again; a source no longer configured does not.
      return { agent: agentOf(item), faults: [] };
    case "inside":
      return { readings: foldInside(readings, item) };
    case "outside":
      return { readings: foldOutside(readings, item) };
    case "queue":
      return { readings: foldQueue(readings, item) };
    case "host":
      return { readings: foldHost(readings, item) };
    case "sessionBegun":
    case "takenBack":
    case "clockStepped":
    case "thinned":
      return {};
    default:
      return {};
  }
}

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

function countSession(state: BoothState, item: ItemOf<"session">): Partial<BoothState> {
  const { atMs, sessionId, basis } = item;
  const id = `${basis} ${sessionId}`;
  // Groups of jobs are made where they are asked for: a source that groups them itself tells nothing more.
  if (basis === "jobs" || isKnownId(state.sessionIds, id)) return {};
  return {
    bins: addSession(state.bins, { atMs, basis, sessionId }),
    sessionIds: rememberId(state.sessionIds, id),
  };
}

function countPrint(state: BoothState, item: ItemOf<"print">): Partial<BoothState> {
  const { atMs, printId, pitches, basis, queue, sessionId } = item;
  const id = `${basis} ${printId}`;
  if (isKnownId(state.printIds, id)) return {};
  const printIds = rememberId(state.printIds, id);
  const use = { atMs, pitches, basis, queue, sessionId };
  return { printIds, ...(isStandIn(state, use) ? countStandIn(state, use) : countSeen(state, use)) };
}

/** Whether a job is all that can be seen of what the queue's counter counts: the counter is out of sight. */
function isStandIn({ counts, faults }: BoothState, use: SeenUse): boolean {
  const counter = counts.counters.find((each) => each.queue === use.queue);
  const isLost = faults.some(({ source }) => source === counter?.source);
  return use.basis === "jobs" && isLost && isCountedByCounter(counts, use);
}

/** Such a job counts, and the counter is not to tell of it again. */
function countStandIn(state: BoothState, use: SeenUse): Partial<BoothState> {
  const { counts, bins, media, finishings } = state;
  const { atMs, pitches } = use;
  return {
    counts: { ...counts, counters: oweToCounter(counts.counters, use.queue, pitches) },
    bins: addUse(bins, { ...use, counted: pitches }),
    media: foldPitches(media, pitches, atMs),
    finishings: foldFinished(finishings, use.queue ?? "", pitches, atMs),
  };
}

function countCounter(state: BoothState, item: ItemOf<"counter">): Partial<BoothState> {
  const { counters, moved } = foldCounter(state.counts.counters, item);
  const counts = { ...state.counts, counters };
  if (moved === 0) return { counts };
  const { atMs, queue } = item;
  const use = { atMs, pitches: moved, basis: "counter" as const, queue, sessionId: null };
  return countSeen({ ...state, counts }, use);
}

function countSeen(state: BoothState, use: SeenUse): Partial<BoothState> {
  const { ledger, counted } = countUse(state.counts, use, state.bins);
  const isPrinters = use.basis === "counter" || use.basis === "jobs";
  const { finishings } = state;
  return {
    counts: ledger,
    bins: addUse(state.bins, { ...use, counted }),
    media: counted > 0 ? foldPitches(state.media, counted, use.atMs) : state.media,
    finishings: isPrinters ? foldFinished(finishings, use.queue ?? "", use.pitches, use.atMs) : finishings,
  };
}

function changeCounting(state: BoothState, item: ItemOf<"authority">): Partial<BoothState> {
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

const noUse = { pitches: 0, queue: null, sessionId: null };

function countWaste(state: BoothState, item: ItemOf<"waste">): Partial<BoothState> {
  const { atMs, pitches } = item;
  return {
    bins: addUse(state.bins, { ...noUse, atMs, pitches, basis: "waste", counted: 0 }),
    media: foldWaste(state.media, item),
  };
}

function extensionOf(item: ItemOf<"extended">): Extension {
  return { atMs: item.atMs, bookingId: item.bookingId, closeAtMs: item.closeAtMs };
}

function powerOf(before: PowerSeen | null, item: ItemOf<"power">): PowerSeen {
  const { isOnMains, batteryPct, atMs } = item;
  const sinceAtMs = before?.isOnMains === isOnMains ? before.sinceAtMs : atMs;
  return { isOnMains, batteryPct, sinceAtMs, atMs };
}

function faultsAfter(faults: readonly SourceFault[], item: ItemOf<"sourceState">): readonly SourceFault[] {
  const { source, fault, detail, atMs } = item;
  if (fault === null) return faults.filter((each) => each.source !== source);
  const before = faults.find((each) => each.source === source);
  const sinceAtMs = before?.fault === fault ? before.sinceAtMs : atMs;
  return withEntry(faults, (each) => each.source, { source, fault, detail, sinceAtMs });
}

function agentOf(item: ItemOf<"agentStarted">): AgentSeen {
  const { version, hostName, scenario, atMs } = item;
  return { startedAtMs: atMs, version, hostName, scenario };
}

function withLast<T>(list: readonly T[], entry: T): readonly T[] {
  return [...list.slice(1 - changesKept), entry];
}
