import { noStanding, nothingPlanned, type Booking } from "@boothward/shared-types";
import type { BookedTime } from "../../dashboard/booth/bookingWindows.ts";
import { hourMs, sixAtMs } from "./aStoredItem.ts";

/** A booking open from 18:00 to 23:00 UTC with 150 guests; `over` changes what a test is about. */
export function aBooking(over: Partial<Booking> = {}): Booking {
  return {
    bookingId: "booking-1",
    boothId: "juniper",
    client: "Edda and Rowan",
    place: "Quarry Barn",
    eventKind: "wedding",
    zone: "Europe/London",
    latitudeDeg: 51.5,
    longitudeDeg: 0,
    openAtMs: sixAtMs,
    closeAtMs: sixAtMs + 5 * hourMs,
    guests: 150,
    sheetsLoaded: null,
    spareRolls: 1,
    attendant: null,
    standing: noStanding,
    ...nothingPlanned,
    ...over,
  };
}

/** The same with its window: packed two hours before opening, packed down an hour after the close. */
export function aBookedTime(over: Partial<BookedTime> = {}): BookedTime {
  const booking = aBooking(over);
  return {
    ...booking,
    fromAtMs: booking.openAtMs - 2 * hourMs,
    toAtMs: booking.closeAtMs + hourMs,
    ...over,
  };
}
