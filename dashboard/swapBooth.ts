import { eventOf, type Booking } from "@boothward/shared-types";
import type { BoothsAtWork } from "./boothsAtWork.ts";
import type { NoSwap, Swap, Swapped } from "./http/surroundings.ts";
import { heldOf } from "./planOfBooking.ts";
import type { Store } from "./store/openStore.ts";

type With = {
  readonly store: Store;
  readonly booths: Pick<BoothsAtWork, "knownOf">;
  readonly makeId: () => string;
};

/**
 * Ends a booking at an instant and lets another booth go on with its event, in one transaction. The new booking keeps
 * plan and people, and the close as it was extended; passes of the old one hold for both. Guests and spares stay as they
 * were planned, and what is loaded is not known.
 */
export async function swapBooth(with_: With, swap: Swap): Promise<Swapped | NoSwap> {
  const { store, booths } = with_;
  const booking = await store.bookings.byId(swap.bookingId);
  const known = booking === null ? null : booths.knownOf(booking.boothId);
  if (booking === null || known === null) return { refused: "noSuchBooking" };
  if ((await store.booths.byId(swap.toBoothId)) === null) return { refused: "noSuchBooth" };
  if (swap.toBoothId === booking.boothId) return { refused: "sameBooth" };
  const { closeAtMs } = heldOf(booking, known);
  if (swap.atMs <= booking.openAtMs || swap.atMs >= closeAtMs) return { refused: "notWithin" };
  const { ended, begun } = halves({ ...booking, closeAtMs }, swap, with_.makeId());
  const done = await store.bookings.swap({
    ...{ ended, begun, saidAtMs: swap.saidAtMs, by: swap.by },
    // A close that was moved is held by its fact: another one moves it here.
    isExtended: closeAtMs !== booking.closeAtMs,
  });
  return "busyWith" in done ? { refused: "busy", client: done.busyWith.client } : { ended, begun, ...done };
}

function halves(booking: Booking, { toBoothId, atMs }: Swap, bookingId: string) {
  const { breaks, closeAtMs } = booking;
  const within = (fromAtMs: number, toAtMs: number) =>
    breaks
      .map((each) => ({
        fromAtMs: Math.max(each.fromAtMs, fromAtMs),
        toAtMs: Math.min(each.toAtMs, toAtMs),
      }))
      .filter((each) => each.toAtMs > each.fromAtMs);
  const eventId = eventOf(booking);
  const { openAtMs, promisedAtMs } = booking;
  const ended: Booking = {
    ...{ ...booking, eventId, closeAtMs: atMs, breaks: within(openAtMs, atMs) },
    promisedAtMs: promisedAtMs !== null && promisedAtMs < atMs ? promisedAtMs : null,
  };
  const begun: Booking = {
    ...{ ...booking, bookingId, boothId: toBoothId, eventId, openAtMs: atMs, sheetsLoaded: null },
    ...{ promisedAtMs: null, breaks: within(atMs, closeAtMs) },
  };
  return { ended, begun };
}
