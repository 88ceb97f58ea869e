import type { Booking } from "@boothward/shared-types";
import { bookingWindows, type BookedTime } from "./booth/bookingWindows.ts";
import type { BoothState } from "./booth/boothState.ts";
import { stateOfItems } from "./booth/timeline.ts";
import type { PastEvening, SeenSession } from "./forecast/demand/demandInput.ts";
import { demandInputOf } from "./forecast/demandInputOf.ts";
import type { Store } from "./store/openStore.ts";

/** What is asked of earlier evenings. */
export type EveningsWanted = {
  readonly eventKind: string;
  /** Those that closed before this instant. */
  readonly beforeAtMs: number;
  /** Evenings of an invented day teach a real one nothing. */
  readonly isInvented: boolean;
};

/** An evening as it was read, and what it was read from; null: nothing can be learned from it. */
type EveningRead = { readonly mark: string; readonly evening: PastEvening | null };

/** What was read before, by booking: an evening is read again only when something of it has changed. */
export type EveningsRead = Map<string, EveningRead>;

/** Older ones are of another time, and reading them would cost a start its quickness. */
const mostEvenings = 30;

/** Shorter or emptier ones were a try, or a booth that nobody could use. */
const least = { openMs: 3_600_000, sessions: 8 };

const hourMs = 3_600_000;
const quarterMs = hourMs / 4;

/** Facts of so much around the open hours tell when it was packed, extended and packed down. */
const around = { beforeMs: 12 * hourMs, afterMs: 13 * hourMs };

/**
 * The latest evenings of one kind that this business has had with any of its booths, oldest first, each from
 * its own facts. `breathe` is called between two evenings, so that reading them holds nobody up.
 */
export async function readPastEvenings(
  store: Store,
  wanted: EveningsWanted,
  read: EveningsRead,
  breathe: () => Promise<void>,
): Promise<PastEvening[]> {
  const plan = await store.bookings.all();
  const ended = plan
    .filter(({ eventKind }) => isSameKind(eventKind, wanted.eventKind))
    .filter(({ closeAtMs }) => closeAtMs <= wanted.beforeAtMs)
    .reverse();
  const evenings: PastEvening[] = [];
  for (const booking of ended) {
    if (evenings.length === mostEvenings) break;
    const evening = await readEvening(store, booking, plan, wanted, read);
    if (evening !== null && evening.closeAtMs <= wanted.beforeAtMs) evenings.unshift(evening);
    await breathe();
  }
  return evenings.map((evening) => ({ ...evening, eventKind: wanted.eventKind }));
}

/** Kinds are words that people type: "Wedding" is a wedding. */
export function isSameKind(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

async function readEvening(
  store: Store,
  booking: Booking,
  plan: readonly Booking[],
  { isInvented }: EveningsWanted,
  read: EveningsRead,
): Promise<PastEvening | null> {
  const { bookingId, boothId } = booking;
  if (!isInvented && (await store.boothItems.scenarioAt(boothId, booking.closeAtMs)) !== null) return null;
  const near = besides(booking, plan);
  const stretch = stretchOf(booking);
  const mark = `${JSON.stringify(near)} ${await store.boothItems.markBetween(boothId, stretch)}`;
  const known = read.get(bookingId);
  if (known?.mark === mark) return known.evening;
  const facts = await store.boothItems.factsBetween(boothId, stretch);
  const evening = eveningOf(stateOfItems(boothId, facts), near, bookingId);
  read.set(bookingId, { mark, evening });
  return evening;
}

/** The booking with the ones of its booth before and after it, which bound it. */
export function besides({ boothId, bookingId }: Booking, plan: readonly Booking[]): readonly Booking[] {
  const own = plan.filter((each) => each.boothId === boothId);
  const at = own.findIndex((each) => each.bookingId === bookingId);
  return own.slice(Math.max(0, at - 1), at + 2);
}

/** The stretch of time whose facts tell of a booking's evening. */
export function stretchOf({ openAtMs, closeAtMs }: Pick<Booking, "openAtMs" | "closeAtMs">) {
  return { fromAtMs: openAtMs - around.beforeMs, toAtMs: closeAtMs + around.afterMs };
}

/** The booking as it was held, its close as extended; null when others left it no time. */
export function heldBooking(
  state: BoothState,
  near: readonly Booking[],
  bookingId: string,
): BookedTime | null {
  const windows = bookingWindows(near, state);
  return windows.find((window) => window.booking?.bookingId === bookingId)?.booking ?? null;
}

/** Sessions that finished in the open hours, each with its sheets, by what counts best. */
export function sessionsIn(state: BoothState, booking: BookedTime): readonly SeenSession[] {
  const { openAtMs, closeAtMs } = booking;
  const { sessions } = demandInputOf(state, booking, []);
  return sessions.filter(({ atMs }) => atMs >= openAtMs && atMs <= closeAtMs);
}

function eveningOf(state: BoothState, near: readonly Booking[], bookingId: string): PastEvening | null {
  const booking = heldBooking(state, near, bookingId);
  if (booking === null || booking.closeAtMs - booking.openAtMs < least.openMs) return null;
  const sessions = sessionsIn(state, booking);
  if (sessions.length < least.sessions) return null;
  const { eventKind, openAtMs, closeAtMs, guests } = booking;
  return {
    ...{ eventKind, openAtMs, closeAtMs, guests, sessions: sessions.length },
    sheets: sessions.reduce((sum, { sheets }) => sum + sheets, 0),
    sheetsPer15Min: perQuarter(sessions, booking),
  };
}

function perQuarter(sessions: readonly SeenSession[], { openAtMs, closeAtMs }: BookedTime): number[] {
  const quarters = new Array<number>(Math.ceil((closeAtMs - openAtMs) / quarterMs)).fill(0);
  for (const { atMs, sheets } of sessions) {
    const quarter = Math.min(quarters.length - 1, Math.floor((atMs - openAtMs) / quarterMs));
    quarters[quarter] = (quarters[quarter] ?? 0) + sheets;
  }
  return quarters;
}
