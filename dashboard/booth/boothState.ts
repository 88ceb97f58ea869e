import type { FaultWord, Readiness, StoredItem } from "@boothward/shared-types";
import { addPrint, addSession, binOf, type Bin } from "./bins.ts";
import { withEntry } from "./keyed.ts";
import {
  emptyMedia,
  foldCorrection,
  foldEmptySaid,
  foldMeter,
  foldPitches,
  foldRollFitted,
  type MediaLedger,
} from "./mediaLedger.ts";
import { foldPrinterState, noPrinters, type PrinterLedger } from "./printerLedger.ts";
import { saysEmpty } from "./printerReasons.ts";
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
  readonly media: MediaLedger;
  readonly printing: PrinterLedger;
  readonly readings: Readings;
  readonly power: PowerSeen | null;
  readonly faults: readonly SourceFault[];
  readonly readiness: readonly ReadinessChange[];
  readonly extensions: readonly Extension[];
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
    media: emptyMedia,
    printing: noPrinters,
    readings: noReadings,
    power: null,
    faults: [],
    readiness: [],
    extensions: [],
    sessionIds: [],
    printIds: [],
  };
}

/**
 * The state after one more item. Items come in the order of `compareItems`; the timeline sees to that.
 * What this version does not know leaves the state as it was.
 */
export function reduceBooth(state: BoothState, item: StoredItem): BoothState {
  const isNewBin = state.headAtMs === null || binOf(state.headAtMs) !== binOf(item.atMs);
  const readings = isNewBin ? forgetOldReadings(state.readings, binOf(item.atMs)) : state.readings;
  return { ...state, readings, headAtMs: item.atMs, ...changed(state, readings, item) };
}

function changed(state: BoothState, readings: Readings, item: StoredItem): Partial<BoothState> {
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
    case "rollFitted":
      return { media: foldRollFitted(state.media, item) };
    case "correction":
      return { media: foldCorrection(state.media, item) };
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
    case "clockStepped":
    case "thinned":
      return {};
    default:
      return {};
  }
}

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

function countSession(state: BoothState, item: ItemOf<"session">): Partial<BoothState> {
  if (isKnownId(state.sessionIds, item.sessionId)) return {};
  return {
    bins: addSession(state.bins, item.atMs),
    sessionIds: rememberId(state.sessionIds, item.sessionId),
  };
}

function countPrint(state: BoothState, item: ItemOf<"print">): Partial<BoothState> {
  if (isKnownId(state.printIds, item.printId)) return {};
  return {
    bins: addPrint(state.bins, { atMs: item.atMs, pitches: item.pitches }),
    media: foldPitches(state.media, item),
    printIds: rememberId(state.printIds, item.printId),
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
