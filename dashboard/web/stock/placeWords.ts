import type { BookingEntry, BoothEntry } from "../state/apiShapes.ts";
import { stockPlaces as words } from "../words/en/stock.ts";

/** What places of the ledger are called by. */
export type PlaceNames = {
  readonly booths: readonly BoothEntry[];
  readonly bookings: readonly BookingEntry[];
};

/** A place as a person reads it. */
export function placeWords(place: string, { booths, bookings }: PlaceNames): string {
  const id = place.slice(place.indexOf(":") + 1);
  if (place.startsWith("case:")) return words.case(booths.find(({ boothId }) => boothId === id)?.name ?? "?");
  if (place.startsWith("event:")) {
    const booking = bookings.find(({ bookingId }) => bookingId === id);
    return booking === undefined ? words.goneEvent : words.event(booking.client);
  }
  const word: unknown = Reflect.get(words, place);
  return typeof word === "string" ? word : place;
}

/** Places that rolls can be counted at: those that hold some, and every case. */
export function countedPlaces(held: readonly string[], { booths }: PlaceNames): string[] {
  const cases = booths.map(({ boothId }) => `case:${boothId}`);
  return [...new Set(["store", ...cases, ...held.filter((place) => place !== "order")])];
}
