import type { Booking } from "@boothward/shared-types";
import ICAL from "ical.js";

/** A UID of ours; the part before it is the booking's id, so that a file that comes back is known again. */
export const uidEnd = "@boothward";

/** Names of the properties that iCalendar has no word for. */
export const ownProperties = {
  booth: "x-boothward-booth",
  zone: "x-boothward-zone",
  guests: "x-boothward-guests",
  sheetsLoaded: "x-boothward-sheets-loaded",
  spareRolls: "x-boothward-spare-rolls",
  attendant: "x-boothward-attendant",
  headingDeg: "x-boothward-heading",
  expectedHighC: "x-boothward-expected-high-c",
} as const;

// A folded line is at most 75 octets with the blank that begins it, which the library leaves out of its count.
// Source: RFC 5545 section 3.1.
ICAL.foldLength = 74;

/**
 * The run sheet as a calendar: each booking an event with instants in UTC, its own zone beside them. `atMs` is
 * when it is written (DTSTAMP).
 *
 * Source: RFC 5545 sections 3.4, 3.6.1.
 */
export function writeCalendar(
  bookings: readonly Booking[],
  booths: readonly { readonly boothId: string; readonly name: string }[],
  atMs: number,
): string {
  const names = new Map(booths.map(({ boothId, name }) => [boothId, name]));
  const calendar = new ICAL.Component("vcalendar");
  calendar.addPropertyWithValue("version", "2.0");
  calendar.addPropertyWithValue("prodid", "-//Boothward//Run sheet//EN");
  for (const booking of bookings)
    calendar.addSubcomponent(eventOf(booking, names.get(booking.boothId) ?? booking.boothId, atMs));
  return `${calendar.toString()}\r\n`;
}

function eventOf(booking: Booking, booth: string, atMs: number): ICAL.Component {
  const event = new ICAL.Component("vevent");
  const { latitudeDeg, longitudeDeg, standing } = booking;
  event.addPropertyWithValue("uid", `${booking.bookingId}${uidEnd}`);
  event.addPropertyWithValue("dtstamp", utc(atMs));
  event.addPropertyWithValue("dtstart", utc(booking.openAtMs));
  event.addPropertyWithValue("dtend", utc(booking.closeAtMs));
  event.addPropertyWithValue("summary", booking.client);
  if (booking.place !== "") event.addPropertyWithValue("location", booking.place);
  event.addPropertyWithValue("categories", booking.eventKind);
  if (latitudeDeg !== null && longitudeDeg !== null)
    event.addPropertyWithValue("geo", [latitudeDeg, longitudeDeg]);
  const own = {
    ...{ booth, zone: booking.zone, guests: booking.guests, sheetsLoaded: booking.sheetsLoaded },
    ...{ spareRolls: booking.spareRolls, attendant: booking.attendant },
    ...{ headingDeg: standing.headingDeg, expectedHighC: standing.expectedHighC },
  };
  for (const [name, property] of Object.entries(ownProperties)) {
    const told = own[name as keyof typeof own];
    if (told !== null) event.addProperty(textProperty(property, String(told)));
  }
  return event;
}

/** A property of our own, marked as text: only then its commas and line ends are escaped. */
function textProperty(name: string, text: string): ICAL.Property {
  const property = new ICAL.Property(name);
  property.resetType("text");
  property.setValue(text);
  return property;
}

function utc(atMs: number): ICAL.Time {
  return ICAL.Time.fromJSDate(new Date(atMs), true);
}
