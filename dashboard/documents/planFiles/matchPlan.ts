import { bookingInput, type Booking, type FileProblem, type FileRow } from "@boothward/shared-types";
import { issueSentence } from "../tables/issueSentence.ts";
import { inTurns } from "../tables/inTurns.ts";
import { planInput } from "./planInput.ts";
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

type Read = { readonly raw: RawBooking; readonly booking: Booking; readonly before: Booking | null };

/** Holds the entries of a file against the plan, by the checks of the form: each is new, changes one, or is there. */
export async function matchPlan(raws: readonly RawBooking[], known: PlanKnown): Promise<PlanMatch> {
  const problems: FileProblem[] = [];
  const seen = new Set<string>();
  const byId = new Map(known.bookings.map((booking) => [booking.bookingId, booking]));
  const bySpan = new Map(known.bookings.map((booking) => [spanOf(booking), booking]));
  const [read, kept]: [Read[], Read[]] = [[], []];
  await inTurns(raws, (raw) => {
    const booth = boothOf(raw, known.booths);
    if ("problem" in booth) {
      problems.push(booth.problem);
      return;
    }
    const before = byId.get(raw.bookingId ?? "") ?? bySpan.get(spanOf({ ...booth, ...raw.fields })) ?? null;
    const bookingId = before?.bookingId ?? known.makeId();
    if (seen.has(bookingId)) {
      problems.push({ line: raw.line, column: null, sentence: "this booking is in the file twice" });
      return;
    }
    seen.add(bookingId);
    const input = planInput(raw.fields, before, booth.boothId);
    const found = bookingInput.safeParse(input);
    if (found.success) read.push({ raw, booking: { ...found.data, bookingId }, before });
    else problems.push(problemOf(raw, found.error.issues[0], input));
  });
  await inTurns(read, (each) => {
    if (each.before === null || !isSame(each.booking, each.before)) kept.push(each);
  });
  const isKept = new Set(kept);
  return {
    rows: read.map((each) => rowOf(each, isKept.has(each), known.booths)),
    problems: [...problems, ...clashes(kept, known.bookings)].sort((a, b) => a.line - b.line),
    bookings: kept.map(({ booking }) => booking),
  };
}

function boothOf(
  { booth, line }: RawBooking,
  booths: readonly Booth[],
): { readonly boothId: string } | { readonly problem: FileProblem } {
  const [found, other] = boothsCalled(booth, booths);
  const problem = (sentence: string) => ({ problem: { line, column: "boothId", sentence } });
  if (found === undefined) return problem(booth === "" ? "no booth is named" : `there is no booth ${booth}`);
  if (other !== undefined) return problem(`more than one booth is called ${booth}`);
  return { boothId: found.boothId };
}

function problemOf(
  { line }: RawBooking,
  issue: Parameters<typeof issueSentence>[0],
  input: unknown,
): FileProblem {
  const path = issue?.path.map(String).join(".") ?? "";
  return { line, column: path === "" ? null : path, sentence: issueSentence(issue, input) };
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
function spanOf(of: {
  readonly [name in "boothId" | "openAtMs" | "closeAtMs" | "client"]?: unknown;
}): string {
  return JSON.stringify([of.boothId, of.openAtMs, of.closeAtMs, of.client]);
}

function isSame(a: Booking, b: Booking): boolean {
  return JSON.stringify(a, bare) === JSON.stringify(b, bare);
}

/** What a file keeps of a field: not what sort of line ends a note has, nor blanks around it, nor an order of names. */
function bare(_: string, value: unknown): unknown {
  if (typeof value === "string") return value.replace(/\r\n?/g, "\n").trim();
  if (typeof value !== "object" || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([x], [y]) => (x < y ? -1 : 1)));
}
