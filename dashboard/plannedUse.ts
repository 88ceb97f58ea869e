import type { Booking } from "@boothward/shared-types";
import { setImmediate as everythingElse } from "node:timers/promises";
import { wasteAtChange } from "./forecast/media/rollWaste.ts";
import type { PastEvening } from "./forecast/demand/demandInput.ts";
import type { KnownBooth } from "./boothsAtWork.ts";
import type { KnownEvenings } from "./knownEvenings.ts";
import { eveningSheets } from "./planning/eveningSheets.ts";
import type { PlannedUse } from "./planning/stock/useAhead.ts";
import type { Store } from "./store/openStore.ts";

type BookedUse = PlannedUse & { readonly bookingId: string };

/** Earlier evenings are the same list until they change: a season of them is not compared word by word. */
type LookedAt = { readonly mark: string; readonly past: readonly PastEvening[]; readonly use: BookedUse };

/**
 * What each coming booking is expected to use, in rolls, the next first: the sheets of its evening by what a roll
 * gives after the usual waste of fitting it. One booking is looked at again only when its plan, or what earlier
 * evenings taught, has changed.
 */
export function openPlannedUse(options: {
  readonly store: Store;
  readonly evenings: Pick<KnownEvenings, "of">;
  readonly knownOf: (boothId: string) => KnownBooth | null;
}): (atMs: number) => Promise<BookedUse[]> {
  const { store, evenings, knownOf } = options;
  const kept = new Map<string, LookedAt>();

  async function useOf(booking: Booking): Promise<BookedUse> {
    const past = evenings.of(booking.eventKind, false);
    const kitSheets = knownOf(booking.boothId)?.settings.kitSheets ?? null;
    const mark = JSON.stringify([booking, kitSheets]);
    const before = kept.get(booking.bookingId);
    if (before?.mark === mark && before.past === past) return before.use;
    // Each takes a while to reckon: between two of them everything else goes first.
    await everythingElse();
    const { mean, sd } = eveningSheets(booking, past);
    const rollSheets = Math.max(1, (kitSheets ?? usualKit) - wasteAtChange.usual);
    const { bookingId, openAtMs } = booking;
    const use = { bookingId, openAtMs, mean: mean / rollSheets, sd: sd / rollSheets };
    kept.set(bookingId, { mark, past, use });
    return use;
  }

  return async (atMs) => {
    const bookings = await store.bookings.all();
    const uses: BookedUse[] = [];
    for (const booking of bookings) if (booking.openAtMs > atMs) uses.push(await useOf(booking));
    return uses;
  };
}

/** A booth that is not known has the usual roll (common practice, no source). */
const usualKit = 400;
