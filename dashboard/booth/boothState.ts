import type { Readiness, StoredItem } from "@boothward/shared-types";
import { binOf } from "./bins.ts";
import {
  changeCounting,
  countCounter,
  countPrint,
  countSession,
  countWaste,
  type Counting,
} from "./countFacts.ts";
import { noCounts } from "./countLedger.ts";
import {
  agentOf,
  faultsAfter,
  machineOf,
  powerOf,
  type AgentSeen,
  type MachineSeen,
  type PowerSeen,
} from "./machineSeen.ts";
import { foldMeter } from "./foldMeter.ts";
import { foldEmptySaid } from "./foldPaper.ts";
import { foldCorrection, foldRollDenied, foldRollFitted, foldRollTakenOff } from "./foldRollWords.ts";
import { emptyMedia } from "./mediaLedger.ts";
import { insideNow, isGoodAt } from "./insideNow.ts";
import { foldPeer, type PeerSeen } from "./peersSeen.ts";
import { isPersons, withWord, type PersonsWord } from "./personsWords.ts";
import { foldCheck, foldTestHeard, unprepared, type Preparedness } from "./preparedness.ts";
import { foldPrinterState, noPrinters, type PrinterLedger } from "./printerLedger.ts";
import { saysEmpty } from "./printerReasons.ts";
import {
  foldBattery,
  foldHost,
  foldInside,
  foldOutside,
  foldQueue,
  forgetOldReadings,
  noReadings,
  type Readings,
} from "./readings.ts";
import { foldPacePrint } from "./sheetPaces.ts";
import { foldSize, type SizeSeen } from "./sizesSeen.ts";

/**
 * All that is known of a booth after its items up to `headAtMs`, and nothing else: no settings, no plan, no
 * clock. Plain JSON. States share their unchanged parts.
 */
export type BoothState = Counting & {
  readonly boothId: string;
  /** True time of the last item folded; null before the first. */
  readonly headAtMs: number | null;
  readonly agent: AgentSeen | null;
  readonly printing: PrinterLedger;
  readonly readings: Readings;
  readonly power: PowerSeen | null;
  readonly peers: readonly PeerSeen[];
  readonly machine: MachineSeen | null;
  readonly prepared: Preparedness;
  /** Of the last prints whose sources know it, oldest first. */
  readonly sizes: readonly SizeSeen[];
  readonly readiness: readonly ReadinessChange[];
  readonly extensions: readonly Extension[];
  /** What people said, in its order, also what was taken back. */
  readonly words: readonly PersonsWord[];
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
    peers: [],
    machine: null,
    prepared: unprepared,
    sizes: [],
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
  const before = atMoment(state, item.atMs);
  const words = isPersons(item) ? withWord(before.words, item, false) : before.words;
  return { ...before, ...changed(before, item), words, headAtMs: item.atMs };
}

/** The state after a person's word that was taken back: as if it had never been said, but for its name. */
export function reduceTakenBack(state: BoothState, item: StoredItem): BoothState {
  const before = atMoment(state, item.atMs);
  const words = isPersons(item) ? withWord(before.words, item, true) : before.words;
  return { ...before, words, headAtMs: item.atMs };
}

/** The state without readings that are old by an instant; the same state within one bin. */
function atMoment(state: BoothState, atMs: number): BoothState {
  const isNewBin = state.headAtMs === null || binOf(state.headAtMs) !== binOf(atMs);
  return isNewBin ? { ...state, readings: forgetOldReadings(state.readings, binOf(atMs)) } : state;
}

function changed(state: BoothState, item: StoredItem): Partial<BoothState> {
  const { readings } = state;
  switch (item.kind) {
    case "session":
      return countSession(state, item);
    case "print":
      return seePrint(state, item);
    case "printerState":
      return seePrinter(state, item);
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
      return {
        power: powerOf(state.power, item),
        readings: foldBattery(readings, item, item.isOnMains),
      };
    case "peer":
      return { peers: foldPeer(state.peers, item) };
    case "machine":
      return { machine: machineOf(state.machine, item) };
    case "testHeard":
      return { prepared: foldTestHeard(state.prepared, item) };
    case "check":
      return { prepared: foldCheck(state.prepared, item) };
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
      return { readings: foldHost(readings, item, state.power?.isOnMains ?? null) };
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

/** A print that is told again has told its size, and how long it took, before. */
function seePrint(state: BoothState, item: ItemOf<"print">): Partial<BoothState> {
  const counted = countPrint(state, item);
  if (counted.printIds === undefined) return counted;
  const inside = insideNow(state);
  const insideC = inside !== null && isGoodAt(inside, item.atMs) ? inside.insideC : null;
  const paces = foldPacePrint(state.readings.paces, item, state.printing.stops, insideC);
  return { ...counted, sizes: foldSize(state.sizes, item), readings: { ...state.readings, paces } };
}

/** A booth of several printers is out of paper when any of them says so. */
function seePrinter(state: BoothState, item: ItemOf<"printerState">): Partial<BoothState> {
  const printing = foldPrinterState(state.printing, item);
  const isEmpty = printing.printers.some(({ reasons }) => saysEmpty(reasons));
  return { printing, media: foldEmptySaid(state.media, isEmpty, item.atMs) };
}

function extensionOf(item: ItemOf<"extended">): Extension {
  return { atMs: item.atMs, bookingId: item.bookingId, closeAtMs: item.closeAtMs };
}

function withLast<T>(list: readonly T[], entry: T): readonly T[] {
  return [...list.slice(1 - changesKept), entry];
}
