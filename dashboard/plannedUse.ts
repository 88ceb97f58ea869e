import type { Booking } from "@boothward/shared-types";
import { forecastDemand } from "./forecast/demand/forecastDemand.ts";
import { wasteAtChange } from "./forecast/media/rollWaste.ts";
import type { KnownBooth } from "./boothsAtWork.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import type { PlannedUse } from "./planning/stock/useAhead.ts";
import type { Store } from "./store/openStore.ts";

type BookedUse = PlannedUse & { readonly bookingId: string };

/** Quantiles by which the spread of demand is read: one standard deviation on each side of a normal curve. */
const oneSd = { low: 0.1587, high: 0.8413 };

/**
 * What each coming booking is expected to use, in rolls, the next first: the forecast's sheets as it stands at
 * the opening, by what a roll gives after the usual waste of fitting it. One booking is looked at again only when
 * its plan, or what earlier evenings taught, has changed.
 */
export function openPlannedUse(options: {
  readonly store: Store;
  readonly evenings: Pick<KnownEvenings, "of">;
  readonly knownOf: (boothId: string) => KnownBooth | null;
}): (atMs: number) => Promise<BookedUse[]> {
  const { store, evenings, knownOf } = options;
  const kept = new Map<string, { readonly mark: string; readonly use: BookedUse }>();

  function useOf(booking: Booking): BookedUse {
    const past = evenings.of(booking.eventKind, false);
    const kitSheets = knownOf(booking.boothId)?.settings.kitSheets ?? null;
    const mark = JSON.stringify([booking, past, kitSheets]);
    const before = kept.get(booking.bookingId);
    if (before?.mark === mark) return before.use;
    const { mean, sd } = sheetsOf(booking, past);
    const rollSheets = Math.max(1, (kitSheets ?? usualKit) - wasteAtChange.usual);
    const { bookingId, openAtMs } = booking;
    const use = { bookingId, openAtMs, mean: mean / rollSheets, sd: sd / rollSheets };
    kept.set(bookingId, { mark, use });
    return use;
  }

  return async (atMs) => {
    const bookings = await store.bookings.all();
    return bookings.filter(({ openAtMs }) => openAtMs > atMs).map(useOf);
  };
}

/** A booth that is not known has the usual roll (common practice, no source). */
const usualKit = 400;

function sheetsOf(booking: Booking, past: ReturnType<KnownEvenings["of"]>) {
  const { bookingId: key, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded } = booking;
  const plan = { key, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded, sheetsPerSession: null };
  const input = { plan, past, sessions: [], stops: [] };
  const { ahead } = forecastDemand(null, input, openAtMs, closeAtMs);
  const close = ahead.stepsAtMs.length - 1;
  const spread = ahead.quantile(close, oneSd.high) - ahead.quantile(close, oneSd.low);
  return { mean: ahead.mean(close), sd: spread / 2 };
}
