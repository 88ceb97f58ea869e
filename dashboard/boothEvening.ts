import type { BoothEvening } from "@boothward/shared-types";
import { isInvented, windowAt } from "./advanceBooth.ts";
import { bookingWindows, type BookedWindow } from "./booth/bookingWindows.ts";
import type { KnownBooth } from "./boothsAtWork.ts";
import { whatIfsOf } from "./forecast/index.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import type { Store } from "./store/openStore.ts";

/** Guests come a little before the doors and leave a little after: the evening shows so much on each side. */
const marginMs = 3_600_000;
/** Without a booking: so much of the past. */
const unplannedMs = 6 * 3_600_000;

/**
 * More of one booth, of the booking that `atMs` belongs to: what it was like inside, what was counted per
 * quarter-hour by the venue's clock, when its printer could not print, and what the paper would do if the evening
 * went otherwise.
 */
export async function boothEvening(
  { store, evenings }: { readonly store: Store; readonly evenings: Pick<KnownEvenings, "of"> },
  { state, settings, bookings, forecast }: KnownBooth,
  atMs: number,
): Promise<BoothEvening> {
  const { boothId } = state;
  const window = windowAt(bookingWindows(bookings, state), atMs);
  const evening = eveningIn(window, atMs);
  const { fromAtMs, toAtMs } = evening;
  const { booking } = window;
  const past = booking === null ? [] : evenings.of(booking.eventKind, isInvented(state));
  const zone = (booking ?? bookings.at(-1))?.zone ?? "UTC";
  return {
    ...{ boothId, fromAtMs, toAtMs },
    inside: await store.counts.insideByMinute(boothId, evening),
    quarters: await store.counts.byQuarter(boothId, evening, zone),
    stops: state.printing.stops
      .filter((stop) => stop.fromAtMs < toAtMs && (stop.toAtMs ?? Infinity) > fromAtMs)
      .map(({ fromAtMs, toAtMs, reason }) => ({ fromAtMs, toAtMs, reason })),
    whatIfs: whatIfsOf(state, booking, settings, atMs, past, forecast),
  };
}

/** From a little before the doors to a little after them, as far as it has come and as far as it is its own. */
function eveningIn({ booking, fromAtMs, toAtMs }: BookedWindow, atMs: number) {
  const begins = booking === null ? atMs - unplannedMs : booking.openAtMs - marginMs;
  const ends = booking === null ? atMs : booking.closeAtMs + marginMs;
  const from = Math.max(fromAtMs, Math.min(begins, atMs));
  return { fromAtMs: from, toAtMs: Math.max(from, Math.min(atMs, toAtMs, ends)) };
}
