import type { Booking, StoredItem } from "@boothward/shared-types";
import type { InsideMinute } from "../../dashboard/reports/ownerFigures.ts";
import { hourMs, minuteMs } from "./aStoredItem.ts";

type FactOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

/** What is counted: one booth's raw facts around one booking, of one source of sessions and one of prints. */
export type Counted = {
  readonly booking: Booking;
  readonly facts: readonly StoredItem[];
  readonly heard: readonly number[];
  readonly inside: readonly InsideMinute[];
  readonly limitC: number;
};

/**
 * The figures of an evening, counted from its raw facts in the plainest way there is: lists gone through from end to
 * end, time second by second. It knows nothing of the program's own rooms and is far too slow for them. Facts are of
 * whole seconds.
 */
export function countNaively({ booking, facts: raw, heard, inside, limitC }: Counted) {
  const facts = standing(raw);
  const of = <K extends StoredItem["kind"]>(kind: K) =>
    facts.filter((fact): fact is FactOf<K> => fact.kind === kind);
  const extended = of("extended").filter(({ bookingId }) => bookingId === booking.bookingId);
  const [openAtMs, closeAtMs] = [booking.openAtMs, extended.at(-1)?.closeAtMs ?? booking.closeAtMs];
  const said = (to: string) => of("readiness").find((fact) => fact.to === to)?.atMs ?? Number.NaN;
  const [packedAtMs, packedDownAtMs] = [said("packed"), said("packedDown")];
  const isGuests = (atMs: number) => atMs >= openAtMs && atMs < closeAtMs + 3 * minuteMs;

  const sessions = onceEach(of("session"), ({ sessionId }) => sessionId);
  const prints = onceEach(of("print"), ({ printId }) => printId);
  const sessionOf = (print: FactOf<"print">) =>
    sessions.findLast(({ atMs }) => atMs <= print.atMs && print.atMs - atMs <= 3 * minuteMs);
  const guests = sessions.filter(({ atMs }) => isGuests(atMs));
  const reprints = prints.filter((print) => sessionOf(print) === undefined && isGuests(print.atMs));
  const printsOf = (session: FactOf<"session">) => prints.filter((print) => sessionOf(print) === session);
  const own = guests.map((session) => ({ session, prints: printsOf(session) }));
  const guestPrints = [...own.flatMap((each) => each.prints), ...reprints];
  const otherPrints = prints.filter((print) => !guestPrints.includes(print));

  const quarters: { atMs: number; sessions: number; prints: number; sheets: number }[] = [];
  const ends = Math.max(
    closeAtMs,
    ...guests.map(({ atMs }) => atMs + 1),
    ...reprints.map(({ atMs }) => atMs + 1),
  );
  for (let atMs = openAtMs; atMs < ends; atMs += 15 * minuteMs) {
    const isIn = (each: { atMs: number }) => each.atMs >= atMs && each.atMs < atMs + 15 * minuteMs;
    const here = own.filter(({ session }) => isIn(session));
    const printed = [...here.flatMap((each) => each.prints), ...reprints.filter(isIn)];
    quarters.push({ atMs, sessions: here.length, prints: copies(printed), sheets: pitches(printed) });
  }
  const most = Math.max(...quarters.map((quarter) => quarter.sessions));
  const busiest = quarters.find((quarter) => quarter.sessions === most);

  const waste = of("waste").filter(({ atMs }) => atMs >= packedAtMs && atMs < packedDownAtMs);
  const wasted = (cause: string) =>
    waste.reduce((sum, fact) => sum + (fact.cause === cause ? fact.pitches : 0), 0);
  const used = prints.filter(({ atMs }) => atMs >= packedAtMs && atMs < packedDownAtMs);

  const waits = own
    .filter((each) => each.prints.length > 0)
    .map(({ session, prints: [first] }) => ({ atMs: session.atMs, ms: (first?.atMs ?? 0) - session.atMs }))
    .sort((a, b) => a.ms - b.ms || a.atMs - b.atMs);
  const minutes = inside.filter(({ atMs }) => atMs >= openAtMs && atMs < closeAtMs);

  return {
    closeAtMs,
    figures: {
      ...{ sessions: guests.length, prints: copies(guestPrints), sheets: pitches(guestPrints) },
      ...{ reprints: pitches(reprints), digitalOnly: own.filter((each) => each.prints.length === 0).length },
    },
    quarters,
    busiest: busiest === undefined ? null : { atMs: busiest.atMs, sessions: most },
    outside: { sessions: sessions.length - guests.length, sheets: pitches(otherPrints) },
    time: timesOf({ booking, facts, heard, openAtMs, closeAtMs }),
    paper: {
      sheetsUsed: pitches(used) + wasted("change") + wasted("test") + wasted("spoilt"),
      wasted: { change: wasted("change"), test: wasted("test"), spoilt: wasted("spoilt") },
      rolls: of("rollFitted").map(({ atMs, sheets, by }) => ({ atMs, sheets, by, basis: "fitted" })),
    },
    counts: {
      sessions: guests.length,
      sheets: pitches(prints.filter(({ atMs }) => isGuests(atMs))),
    },
    waits: {
      ...{ known: waits.length, medianMs: waits[Math.floor(waits.length / 2)]?.ms },
      ...{ longestMs: waits.at(-1)?.ms, longestAtMs: waits.at(-1)?.atMs },
    },
    inside: {
      minC: Math.min(...minutes.map(({ minC }) => minC)),
      maxC: Math.max(...minutes.map(({ maxC }) => maxC)),
      meanC: minutes.reduce((sum, { meanC }) => sum + meanC, 0) / minutes.length,
      ...{
        limitC,
        minutes: minutes.length,
        aboveLimitMin: minutes.filter(({ maxC }) => maxC > limitC).length,
      },
    },
    gaps: gapsOf({ booking, facts, heard, openAtMs, closeAtMs }, guests),
  };
}

/** In the order of time, each once, without what was taken back. */
function standing(raw: readonly StoredItem[]): StoredItem[] {
  const takings = raw.filter((fact): fact is FactOf<"takenBack"> => fact.kind === "takenBack");
  const isOut = (fact: StoredItem) =>
    takings.some(({ factBootId, factSeq }) => factBootId === fact.bootId && factSeq === fact.seq);
  const sorted = raw.filter((fact) => !isOut(fact)).sort((a, b) => a.atMs - b.atMs || a.seq - b.seq);
  return onceEach(sorted, ({ bootId, seq }) => `${bootId} ${seq}`);
}

function onceEach<T>(list: readonly T[], nameOf: (each: T) => string): T[] {
  return list.filter((each, at) => list.findIndex((other) => nameOf(other) === nameOf(each)) === at);
}

const pitches = (prints: readonly FactOf<"print">[]) => prints.reduce((sum, print) => sum + print.pitches, 0);
const copies = (prints: readonly FactOf<"print">[]) => prints.reduce((sum, print) => sum + print.copies, 0);

type Evening = Pick<Counted, "booking" | "facts" | "heard"> & { openAtMs: number; closeAtMs: number };

/** What the booth was in each second of the open hours. */
function secondsOf({ booking, facts, heard, openAtMs, closeAtMs }: Evening) {
  const seconds: ("break" | "unknown" | "stopped" | "ready")[] = [];
  const readiness = facts.filter((fact): fact is FactOf<"readiness"> => fact.kind === "readiness");
  const states = facts.filter((fact): fact is FactOf<"printerState"> => fact.kind === "printerState");
  for (let atMs = openAtMs; atMs < closeAtMs; atMs += 1_000) {
    const isBefore = (fact: StoredItem) => fact.atMs <= atMs;
    const isPlannedBreak = booking.breaks.some(({ fromAtMs, toAtMs }) => atMs >= fromAtMs && atMs < toAtMs);
    const last = heard.findLast((each) => each <= atMs) ?? -Infinity;
    const next = heard.find((each) => each > atMs) ?? Infinity;
    if (isPlannedBreak || readiness.findLast(isBefore)?.to === "onBreak") seconds.push("break");
    else if (next - last > 5 * minuteMs) seconds.push("unknown");
    else seconds.push(states.findLast(isBefore)?.state === "stopped" ? "stopped" : "ready");
  }
  return seconds;
}

function timesOf(evening: Evening) {
  const seconds = secondsOf(evening);
  const { booking, openAtMs, closeAtMs } = evening;
  const lengthMs = (word: string) => seconds.filter((second) => second === word).length * 1_000;
  const bookedMs = booking.closeAtMs - booking.openAtMs;
  return {
    ...{ bookedMs, overrunMs: closeAtMs - openAtMs - bookedMs, breaksMs: lengthMs("break") },
    ...{ promisedMs: closeAtMs - openAtMs - lengthMs("break"), readyMs: lengthMs("ready") },
    ...{ stoppedMs: lengthMs("stopped"), packedDownMs: 0, unknownMs: lengthMs("unknown") },
  };
}

/** Each silence, with as many sessions as the seconds of the hour before and after that were ready would give. */
function gapsOf(evening: Evening, guests: readonly { readonly atMs: number }[]) {
  const seconds = secondsOf(evening);
  const { openAtMs } = evening;
  const gaps: { fromAtMs: number; toAtMs: number; sessionsEstimate: number | null }[] = [];
  seconds.forEach((word, at) => {
    if (word !== "unknown" || seconds[at - 1] === "unknown") return;
    let end = at;
    while (seconds[end] === "unknown") end += 1;
    let known = 0;
    let seen = 0;
    for (let second = Math.max(0, at - 3_600); second < Math.min(seconds.length, end + 3_600); second++) {
      if (seconds[second] !== "ready") continue;
      known += 1;
      seen += guests.filter(({ atMs }) => Math.floor((atMs - openAtMs) / 1_000) === second).length;
    }
    gaps.push({
      ...{ fromAtMs: openAtMs + at * 1_000, toAtMs: openAtMs + end * 1_000 },
      sessionsEstimate: known * 1_000 < hourMs / 4 ? null : Math.round((seen * (end - at)) / known),
    });
  });
  return gaps;
}
