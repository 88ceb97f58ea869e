import type { Booking, StoredItem } from "@boothward/shared-types";
import { seededDice, type Dice } from "../../seeds/dice.ts";
import { aBooking } from "./aBooking.ts";
import { aStoredItem, hourMs, minuteMs } from "./aStoredItem.ts";

/** A stretch as [from, to] ms. */
export type Span = readonly [fromAtMs: number, toAtMs: number];

/** An invented evening with all that was really done at it, written down while it was made up. */
export type ReportedEvening = {
  readonly booking: Booking;
  /** In no order, some twice. */
  readonly facts: readonly StoredItem[];
  /** Instants at which the booth was heard. */
  readonly heard: readonly number[];
  readonly truth: {
    readonly closeAtMs: number;
    /** When guests finished. */
    readonly sessions: readonly number[];
    readonly prints: number;
    readonly sheets: number;
    readonly reprints: number;
    readonly digitalOnly: number;
    readonly outside: { readonly sessions: number; readonly sheets: number };
    readonly wasted: number;
    readonly rolls: number;
    readonly breaks: readonly Span[];
    readonly gaps: readonly Span[];
    readonly stops: readonly Span[];
  };
};

type Parts = {
  readonly bookingId?: string;
  readonly boothId?: string;
  readonly openAtMs: number;
  readonly hours?: number;
  readonly zone?: string;
};

/**
 * An evening whose hours differ: in one the printer stops, in one the roll is changed, in one nothing is heard, in
 * one there is a break. Tests before and after, a session of the attendant's own, reprints, digital sessions, guests
 * who come out after the close, an extension, waste that is said and taken back.
 */
export function aReportedEvening(seed: number, parts: Parts): ReportedEvening {
  const { bookingId = "booking-1", boothId = "juniper", openAtMs, hours = 5, zone = "Europe/London" } = parts;
  const dice = seededDice(seed, `reported ${bookingId}`);
  const booking = aBooking({
    ...{ bookingId, boothId, zone, openAtMs, closeAtMs: openAtMs + hours * hourMs, sheetsLoaded: 400 },
  });
  const isExtended = dice() < 0.5;
  const closeAtMs = booking.closeAtMs + (isExtended ? 30 * minuteMs : 0);
  const maker = factMaker(boothId, bookingId);
  const add = maker.add;
  const plan = hoursOf(dice, openAtMs, hours);
  const spans = (kind: HourKind): Span[] => plan.filter((hour) => hour.kind === kind).map(({ span }) => span);

  add(openAtMs - 3 * hourMs, "readiness", { to: "packed" });
  add(openAtMs - 150 * minuteMs, "agentStarted", {});
  add(openAtMs - 150 * minuteMs, "printerState", { state: "idle", reasons: [] });
  let outsideSheets = 0;
  const tests = 1 + Math.floor(dice() * 3);
  for (let at = 0; at < tests; at++) {
    const pitches = 1 + Math.floor(dice() * 2);
    add(openAtMs - (110 - at * 7) * minuteMs, "print", { copies: pitches, pitches });
    outsideSheets += pitches;
  }
  const hasOwnSession = dice() < 0.6;
  if (hasOwnSession) {
    add(openAtMs - 40 * minuteMs, "session", {});
    add(openAtMs - 40 * minuteMs + 20_000, "print", { copies: 1, pitches: 1 });
    outsideSheets += 1;
  }

  for (const { kind, span } of plan) {
    if (kind === "stop" || kind === "change") {
      const reason = kind === "stop" ? "media-jam-error" : "media-empty-error";
      add(span[0], "printerState", { state: "stopped", reasons: [reason] });
      if (kind === "change") {
        add(span[1] - 30_000, "rollFitted", { sheets: 400, by: "Ama" });
        add(span[1] - 20_000, "waste", { pitches: 2, cause: "change", by: "Ama" });
      }
      add(span[1], "printerState", { state: "idle", reasons: [] });
    }
    if (kind === "break") {
      add(span[0], "readiness", { to: "onBreak" });
      add(span[1], "readiness", { to: "open" });
    }
  }
  const mistaken = add(openAtMs + 31 * minuteMs, "waste", { pitches: 9, cause: "spoilt", by: "Ama" });
  add(openAtMs + 33 * minuteMs, "takenBack", { factBootId: mistaken.bootId, factSeq: mistaken.seq });
  if (isExtended) add(booking.closeAtMs - 20 * minuteMs, "extended", { bookingId, closeAtMs });

  const guests = guestsOf(dice, openAtMs, closeAtMs, plan, add);
  add(closeAtMs + 12 * minuteMs, "print", { copies: 1, pitches: 1 });
  add(closeAtMs + hourMs, "readiness", { to: "packedDown" });
  return {
    booking,
    facts: shuffled(dice, maker.facts),
    heard: heardIn(openAtMs - 150 * minuteMs, closeAtMs + hourMs, spans("gap")),
    truth: {
      ...{ closeAtMs, ...guests },
      outside: { sessions: hasOwnSession ? 1 : 0, sheets: outsideSheets + 1 },
      ...{ wasted: 2 * spans("change").length, rolls: spans("change").length },
      ...{ breaks: spans("break"), gaps: spans("gap") },
      stops: [...spans("stop"), ...spans("change")],
    },
  };
}

type HourKind = "plain" | "stop" | "change" | "gap" | "break";
type Hour = { readonly kind: HourKind; readonly span: Span };

/** What each hour is like, and its stretch without guests; the first is an ordinary one. */
function hoursOf(dice: Dice, openAtMs: number, hours: number): Hour[] {
  const kinds: readonly HourKind[] = ["plain", "stop", "change", "gap", "break"];
  return Array.from({ length: hours }, (_, at) => {
    const kind = at === 0 ? "plain" : (kinds[Math.floor(dice() * kinds.length)] ?? "plain");
    const fromMin = at * 60 + 20 + Math.floor(dice() * 10);
    const lengthMin = kind === "gap" ? 12 + Math.floor(dice() * 10) : 4 + Math.floor(dice() * 10);
    const span = [openAtMs + fromMin * minuteMs, openAtMs + (fromMin + lengthMin) * minuteMs] as const;
    return { kind, span };
  });
}

/** Guests come every two to six minutes; nobody does in a stretch without guests, nor shortly before it. */
function guestsOf(
  dice: Dice,
  openAtMs: number,
  closeAtMs: number,
  plan: readonly Hour[],
  add: Add,
): Pick<ReportedEvening["truth"], "sessions" | "prints" | "sheets" | "reprints" | "digitalOnly"> {
  const sessions: number[] = [];
  const truth = { prints: 0, sheets: 0, reprints: 0, digitalOnly: 0 };
  const isFree = (atMs: number) =>
    plan.every(
      ({ kind, span: [from, to] }) => kind === "plain" || atMs < from - 6 * minuteMs || atMs > to + minuteMs,
    );
  const print = (atMs: number): number => {
    const copies = 1 + Math.floor(dice() * 3);
    const pitches = copies * (dice() < 0.3 ? 2 : 1);
    const made = add(atMs, "print", { copies, pitches });
    // Now and then a source tells of one print twice.
    if (dice() < 0.05) add(atMs + 1_000, "print", { copies, pitches, printId: made.id });
    truth.prints += copies;
    truth.sheets += pitches;
    return pitches;
  };
  let atMs = openAtMs + minuteMs;
  while (atMs < closeAtMs - 6 * minuteMs) {
    if (isFree(atMs)) {
      add(atMs, "session", {});
      sessions.push(atMs);
      if (dice() < 0.1) truth.digitalOnly += 1;
      else
        for (let jobs = dice() < 0.3 ? 2 : 1; jobs > 0; jobs--)
          print(atMs + Math.floor(15 + dice() * 85) * 1000);
      if (dice() < 0.1) {
        // Somebody comes back for another copy.
        atMs += 200_000;
        truth.reprints += print(atMs);
      }
    }
    atMs += Math.floor(130 + dice() * 230) * 1000;
  }
  const lastAtMs = closeAtMs + minuteMs;
  add(lastAtMs, "session", {});
  sessions.push(lastAtMs);
  print(lastAtMs + 30_000);
  return { sessions, ...truth };
}

type Over = Readonly<Record<string, unknown>>;
type Made = { readonly bootId: string; readonly seq: number; readonly id: string };
type Add = (atMs: number, kind: StoredItem["kind"], over: Over) => Made;

const personKinds: ReadonlySet<string> = new Set([
  "readiness",
  "rollFitted",
  "waste",
  "takenBack",
  "extended",
]);

/** Gives each fact its boot, number and ids. */
function factMaker(boothId: string, bookingId: string): { add: Add; facts: StoredItem[] } {
  const facts: StoredItem[] = [];
  const seqs = { agent: 0, dashboard: 0 };
  const add: Add = (atMs, kind, over) => {
    const isPersons = personKinds.has(kind);
    const seq = isPersons ? ++seqs.dashboard : ++seqs.agent;
    const bootId = isPersons ? `said at ${bookingId}` : `boot of ${bookingId}`;
    const id = `${bookingId} ${seq}`;
    const ids = kind === "session" ? { sessionId: id } : kind === "print" ? { printId: id } : {};
    const stamp = {
      bootId,
      seq,
      atMs,
      boothId,
      receivedAtMs: atMs,
      source: isPersons ? "dashboard" : "booth",
    };
    facts.push({ ...aStoredItem(kind), ...ids, ...stamp, ...over });
    return { bootId, seq, id };
  };
  return { add, facts };
}

function heardIn(fromAtMs: number, toAtMs: number, gaps: readonly Span[]): number[] {
  const minutes = Math.floor((toAtMs - fromAtMs) / minuteMs);
  const all = Array.from({ length: minutes + 1 }, (_, at) => fromAtMs + at * minuteMs);
  return all.filter((atMs) => gaps.every(([from, to]) => atMs <= from || atMs >= to));
}

function shuffled<T>(dice: Dice, list: readonly T[]): T[] {
  return list
    .map((entry) => ({ entry, at: dice() }))
    .sort((a, b) => a.at - b.at)
    .map(({ entry }) => entry);
}
