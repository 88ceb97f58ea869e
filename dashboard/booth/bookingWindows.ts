import type { Booking } from "@boothward/shared-types";
import type { BoothState } from "./boothState.ts";

/**
 * Which stretch of a booth's time belongs to which booking. A question asked of the plan and the facts each
 * time, never written on a fact: changing the plan re-attributes by itself.
 */
export type BookedWindow = {
  /** null: the automatic "unplanned" one. */
  readonly booking: BookedTime | null;
  /** From this instant on and before `toAtMs`; the first and the last window have no end. */
  readonly fromAtMs: number;
  readonly toAtMs: number;
};

/** A booking with its close as extended, and the stretch whose facts are its own. */
export type BookedTime = Booking & { readonly fromAtMs: number; readonly toAtMs: number };

/** What attribution reads, in the order of time: a booth's state has both, and so has the store. */
export type BookingFacts = Pick<BoothState, "readiness" | "extensions">;

const hourMs = 3_600_000;

/** Setting up and driving there, when nobody said when they packed and nothing went before. Our own choice. */
const withoutPackedMs = 12 * hourMs;

/** Driving home, when nobody said that they packed down and nothing comes after. */
const withoutPackDownMs = 12 * hourMs;

/** Packing is for the booking that opens within this time, not for one next week. */
const packedAheadMs = 48 * hourMs;

const setUpWords: ReadonlySet<string> = new Set(["packed", "onSite", "powered"]);

/**
 * The windows of one booth's bookings in order, without a gap or an overlap, from minus to plus infinity.
 *
 * A window begins when the booth was packed (or at the pack-down before) and ends at its pack-down (or at the
 * next set-up); without either, bookings meet in the middle of the gap. Of two that overlap the later takes
 * over at its opening.
 */
export function bookingWindows(bookings: readonly Booking[], facts: BookingFacts): readonly BookedWindow[] {
  const planned = bookings.map((booking) => withClose(booking, facts)).sort(byOpening);
  const windows: BookedWindow[] = [];
  let reachedAtMs = -Infinity;
  planned.forEach((booking, at) => {
    const fromAtMs = Math.max(reachedAtMs, beginningOf(booking, planned[at - 1] ?? null, facts));
    const toAtMs = Math.max(fromAtMs, endOf(booking, planned[at + 1] ?? null, facts));
    if (fromAtMs > reachedAtMs) windows.push({ booking: null, fromAtMs: reachedAtMs, toAtMs: fromAtMs });
    if (toAtMs > fromAtMs) windows.push({ booking: { ...booking, fromAtMs, toAtMs }, fromAtMs, toAtMs });
    reachedAtMs = toAtMs;
  });
  if (reachedAtMs < Infinity) windows.push({ booking: null, fromAtMs: reachedAtMs, toAtMs: Infinity });
  return windows;
}

/** The booking to which an instant belongs; null: unplanned. */
export function presentBooking(
  bookings: readonly Booking[],
  facts: BookingFacts,
  atMs: number,
): BookedTime | null {
  const windows = bookingWindows(bookings, facts);
  return windows.find((window) => window.fromAtMs <= atMs && atMs < window.toAtMs)?.booking ?? null;
}

/** Whether guests are expected now: within the open hours, and nobody has packed down. */
export function isOpenAt(booking: BookedTime, atMs: number): boolean {
  return booking.openAtMs <= atMs && atMs < Math.min(booking.closeAtMs, booking.toAtMs);
}

function withClose(booking: Booking, { extensions }: BookingFacts): Booking {
  const last = extensions.findLast((each) => each.bookingId === booking.bookingId);
  if (last === undefined || last.closeAtMs <= booking.openAtMs) return booking;
  return { ...booking, closeAtMs: last.closeAtMs };
}

function byOpening(a: Booking, b: Booking): number {
  return a.openAtMs - b.openAtMs || a.closeAtMs - b.closeAtMs || (a.bookingId < b.bookingId ? -1 : 1);
}

function beginningOf(booking: Booking, previous: Booking | null, facts: BookingFacts): number {
  const previousEnd = previous === null ? -Infinity : endOf(previous, booking, facts);
  const packedAtMs = packedBefore(booking, previousEnd, facts);
  if (packedAtMs !== null) return packedAtMs;
  return previous === null ? withoutPrevious(booking, facts) : previousEnd;
}

/** The first time it was packed for this booking: after the one before, and after the last pack-down. */
function packedBefore(booking: Booking, afterAtMs: number, facts: BookingFacts): number | null {
  const packedDownAtMs = lastPackDown(booking, facts) ?? -Infinity;
  const earliest = Math.max(afterAtMs, packedDownAtMs, booking.openAtMs - packedAheadMs);
  const packed = facts.readiness.find(
    ({ to, atMs }) => to === "packed" && atMs >= earliest && atMs <= booking.openAtMs,
  );
  return packed?.atMs ?? null;
}

/** With no booking before: from the last pack-down if there was one lately, else some hours before opening. */
function withoutPrevious(booking: Booking, facts: BookingFacts): number {
  const earliest = booking.openAtMs - withoutPackedMs;
  return Math.max(earliest, lastPackDown(booking, facts) ?? earliest);
}

function lastPackDown(booking: Booking, { readiness }: BookingFacts): number | null {
  const last = readiness.findLast(({ to, atMs }) => to === "packedDown" && atMs <= booking.openAtMs);
  return last?.atMs ?? null;
}

function endOf(booking: Booking, next: Booking | null, facts: BookingFacts): number {
  const untilAtMs = next?.openAtMs ?? Infinity;
  if (booking.closeAtMs > untilAtMs) return untilAtMs;
  const between = facts.readiness.filter(({ atMs }) => atMs > booking.openAtMs && atMs <= untilAtMs);
  const packDown = between.find(({ to }) => to === "packedDown");
  if (packDown !== undefined) return packDown.atMs;
  const setUp = between.find(({ to, atMs }) => setUpWords.has(to) && atMs >= booking.closeAtMs);
  if (setUp !== undefined) return setUp.atMs;
  if (next === null) return booking.closeAtMs + withoutPackDownMs;
  return (booking.closeAtMs + next.openAtMs) / 2;
}
