import type { Booking } from "@boothward/shared-types";
import ICAL from "ical.js";
import { planCells } from "./planCells.ts";

/** A UID of ours; the part before it is the booking's id, so that a file that comes back is known again. */
export const uidEnd = "@boothward";

/** What iCalendar has no word for: the booth, the zone of the place, and the cells of the plan. */
export const ownProperties = { booth: propertyOf("booth"), zone: propertyOf("time zone") };

/** The name of a property of ours. Source: RFC 5545 section 3.8.8.2. */
export function propertyOf(column: string): string {
  return `x-boothward-${column.toLowerCase().replaceAll(" ", "-")}`;
}

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
  const { latitudeDeg, longitudeDeg, zone, place, notes } = booking;
  event.addPropertyWithValue("uid", `${booking.bookingId}${uidEnd}`);
  event.addPropertyWithValue("dtstamp", utc(atMs));
  event.addPropertyWithValue("dtstart", utc(booking.openAtMs));
  event.addPropertyWithValue("dtend", utc(booking.closeAtMs));
  event.addPropertyWithValue("summary", oneEnd(booking.client));
  if (place !== "") event.addPropertyWithValue("location", oneEnd(place));
  if (notes !== "") event.addPropertyWithValue("description", oneEnd(notes));
  event.addPropertyWithValue("categories", oneEnd(booking.eventKind));
  if (latitudeDeg !== null && longitudeDeg !== null)
    event.addPropertyWithValue("geo", [latitudeDeg, longitudeDeg]);
  event.addProperty(textProperty(ownProperties.booth, booth));
  event.addProperty(textProperty(ownProperties.zone, zone));
  for (const { column, write } of planCells) {
    const told = String(write(booking) ?? "");
    if (told !== "") event.addProperty(textProperty(propertyOf(column), told));
  }
  return event;
}

/** Line ends of one sort: the library escapes these only. */
function oneEnd(text: string): string {
  return text.replace(/\r\n?/g, "\n");
}

/** A property of our own, marked as text: only then its commas and line ends are escaped. */
function textProperty(name: string, text: string): ICAL.Property {
  const property = new ICAL.Property(name);
  property.resetType("text");
  property.setValue(oneEnd(text));
  return property;
}

function utc(atMs: number): ICAL.Time {
  return ICAL.Time.fromJSDate(new Date(atMs), true);
}
