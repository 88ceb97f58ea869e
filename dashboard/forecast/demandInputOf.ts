import type { BookedTime } from "../booth/bookingWindows.ts";
import { printsAfter } from "../booth/bins.ts";
import type { BoothState } from "../booth/boothState.ts";
import type { DemandInput, PastEvening } from "./demand/demandInput.ts";

/** What the demand of a booking is forecast from: its plan, and what its booth has counted and could not do. */
export function demandInputOf(
  state: Pick<BoothState, "bins" | "printing">,
  booking: BookedTime,
  past: readonly PastEvening[],
): DemandInput {
  const { bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded } = booking;
  return {
    plan: {
      ...{ key: bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded },
      sheetsPerSession: null,
    },
    past,
    sessions: printsAfter(state.bins, Math.max(openAtMs, booking.fromAtMs)).map(({ atMs, pitches }) => ({
      atMs,
      sheets: pitches,
    })),
    stops: state.printing.stops,
  };
}
