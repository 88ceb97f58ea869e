import {
  bookingInput,
  noStanding,
  type Booking,
  type FileProblem,
  type FileRow,
} from "@boothward/shared-types";
import type { RawBooking } from "./rawBooking.ts";

type Booth = { readonly boothId: string; readonly name: string };

export type PlanKnown = {
  readonly bookings: readonly Booking[];
  readonly booths: readonly Booth[];
  readonly makeId: () => string;
};

/** What a file would do to the plan. Nothing of it is to be kept while there is a problem. */
export type PlanMatch = {
  readonly rows: readonly FileRow[];
  readonly problems: readonly FileProblem[];
  /** New and changed bookings. */
  readonly bookings: readonly Booking[];
};

/** What a new entry has where a file says nothing, as an empty form would send it. */
const asNew = {
  ...{ place: "", latitudeDeg: null, longitudeDeg: null, guests: null, sheetsLoaded: null },
  ...{ spareRolls: 1, attendant: null, standing: noStanding },
};

type Read = { readonly raw: RawBooking; readonly booking: Booking; readonly before: Booking | null };

/** Holds the entries of a file against the plan, by the checks of the form: each is new, changes one, or is there. */
export function matchPlan(raws: readonly RawBooking[], known: PlanKnown): PlanMatch {
  const problems: FileProblem[] = [];
  const seen = new Set<string>();
  const byId = new Map(known.bookings.map((booking) => [booking.bookingId, booking]));
  const bySpan = new Map(known.bookings.map((booking) => [spanOf(booking), booking]));
  const read: Read[] = [];
  for (const raw of raws) {
    const before = raw.bookingId === null ? null : (byId.get(raw.bookingId) ?? null);
    if (before !== null && seen.has(before.bookingId)) {
      problems.push({ line: raw.line, column: null, sentence: "This booking is in the file twice." });
      continue;
    }
    const found = readOne(raw, before, known);
    if ("problem" in found) {
      problems.push(found.problem);
      continue;
    }
    const there = before ?? bySpan.get(spanOf(found)) ?? null;
    const bookingId = there?.bookingId ?? known.makeId();
    seen.add(bookingId);
    read.push({ raw, booking: { ...found, bookingId }, before: there });
  }
  const kept = read.filter(({ booking, before }) => before === null || !isSame(booking, before));
  const isKept = new Set(kept);
  return {
    rows: read.map((each) => rowOf(each, isKept.has(each), known.booths)),
    problems: [...problems, ...clashes(kept, known.bookings)].sort((a, b) => a.line - b.line),
    bookings: kept.map(({ booking }) => booking),
  };
}

function readOne(
  raw: RawBooking,
  before: Booking | null,
  { booths }: PlanKnown,
): Omit<Booking, "bookingId"> | { readonly problem: FileProblem } {
  const problem = (column: string | null, sentence: string) => ({
    problem: { line: raw.line, column, sentence },
  });
  const found = boothsCalled(raw.booth, booths);
  const [booth] = found;
  if (booth === undefined)
    return problem("boothId", raw.booth === "" ? "no booth is named" : `there is no booth ${raw.booth}`);
  if (found.length > 1) return problem("boothId", `more than one booth is called ${raw.booth}`);
  const read = bookingInput.safeParse({ ...asNew, ...before, ...raw.fields, boothId: booth.boothId });
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  return problem(issue?.path.map(String).join(".") ?? null, lowered(issue?.message ?? "cannot be read"));
}

function boothsCalled(name: string, booths: readonly Booth[]): readonly Booth[] {
  const byId = booths.filter(({ boothId }) => boothId === name);
  if (byId.length > 0) return byId;
  return booths.filter((booth) => booth.name.toLowerCase() === name.trim().toLowerCase());
}

/** Entries of one booth whose hours overlap with another's, in the plan as it would be. */
function clashes(kept: readonly Read[], plan: readonly Booking[]): FileProblem[] {
  const replaced = new Set(kept.map(({ booking }) => booking.bookingId));
  const lines = new Map(kept.map(({ raw, booking }) => [booking.bookingId, raw.line]));
  const all = [
    ...plan.filter(({ bookingId }) => !replaced.has(bookingId)),
    ...kept.map(({ booking }) => booking),
  ];
  all.sort((a, b) => (a.boothId < b.boothId ? -1 : a.boothId > b.boothId ? 1 : a.openAtMs - b.openAtMs));
  const problems: FileProblem[] = [];
  let last: Booking | null = null;
  for (const booking of all) {
    const isClash = last !== null && last.boothId === booking.boothId && booking.openAtMs < last.closeAtMs;
    if (isClash && last !== null) {
      const [line, other] = lines.has(booking.bookingId)
        ? [lines.get(booking.bookingId), last]
        : [lines.get(last.bookingId), booking];
      if (line !== undefined)
        problems.push({
          ...{ line, column: "openAtMs" },
          sentence: `this booth is at ${other.client} for part of these hours`,
        });
    }
    if (last === null || last.boothId !== booking.boothId || booking.closeAtMs > last.closeAtMs)
      last = booking;
  }
  return problems;
}

function rowOf({ raw, booking, before }: Read, isKept: boolean, booths: readonly Booth[]): FileRow {
  const booth = booths.find(({ boothId }) => boothId === booking.boothId)?.name ?? booking.boothId;
  const does = !isKept ? "same" : before === null ? "new" : "change";
  return { line: raw.line, does, text: `${booth} · ${booking.client}` };
}

/** The same booth, hours and client: an entry that names no booking is that one. */
function spanOf({ boothId, openAtMs, closeAtMs, client }: Omit<Booking, "bookingId">): string {
  return JSON.stringify([boothId, openAtMs, closeAtMs, client]);
}

function isSame(a: Booking, b: Booking): boolean {
  const sorted = (booking: Booking) =>
    JSON.stringify(Object.entries(booking).sort(([x], [y]) => (x < y ? -1 : 1)));
  return sorted(a) === sorted(b);
}

function lowered(sentence: string): string {
  return sentence.charAt(0).toLowerCase() + sentence.slice(1);
}
