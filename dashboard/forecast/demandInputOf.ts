import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import { finishedSessions } from "../booth/finishedSessions.ts";
import { printingStops } from "../booth/printingStops.ts";
import type { DemandInput, PastEvening } from "./demand/demandInput.ts";

/** The parts of a booth's state that demand is forecast from. */
export type DemandFacts = Pick<BoothState, "bins" | "counts" | "printing" | "agent">;

/** What the demand of a booking is forecast from: its plan, and what its booth has counted and could not do. */
export function demandInputOf(
  state: DemandFacts,
  booking: BookedTime,
  past: readonly PastEvening[],
): DemandInput {
  const { bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded, fromAtMs, toAtMs } = booking;
  return {
    plan: {
      ...{ key: bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded },
      sheetsPerSession: null,
    },
    past,
    sessions: finishedSessions(state, { fromAtMs, toAtMs, booking }),
    stops: printingStops(state),
  };
}
