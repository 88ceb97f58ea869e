import type { Booking } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import { finishedSessions } from "../booth/finishedSessions.ts";
import { printingStops } from "../booth/printingStops.ts";
import type { DemandInput, PastEvening } from "./demand/demandInput.ts";
import { plannedSheets } from "./plannedSheets.ts";

/** The parts of a booth's state that demand is forecast from. */
export type DemandFacts = Pick<BoothState, "bins" | "counts" | "printing" | "agent">;

/** What the demand of a booking is forecast from: its plan, and what its booth has counted and could not do. */
export function demandInputOf(
  state: DemandFacts,
  booking: BookedTime,
  past: readonly PastEvening[],
): DemandInput {
  const { fromAtMs, toAtMs } = booking;
  const planned = plannedDemand(booking, past);
  return {
    ...planned,
    sessions: finishedSessions(state, { fromAtMs, toAtMs, booking }),
    stops: [...printingStops(state), ...planned.stops],
  };
}

/** The same before anything has happened. Its breaks are stretches in which nobody can print. */
export function plannedDemand(booking: Booking, past: readonly PastEvening[]): DemandInput {
  const { bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded, breaks } = booking;
  const sheetsPerSession = plannedSheets(booking);
  return {
    plan: { key: bookingId, openAtMs, closeAtMs, guests, eventKind, sheetsLoaded, sheetsPerSession },
    ...{ past, sessions: [], stops: breaks },
  };
}
