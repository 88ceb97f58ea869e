import { instantOf } from "../words/zonedTime.ts";
import type { readForm } from "./readForm.ts";

const dayMs = 86_400_000;

/**
 * The body of a booking as the dashboard wants it, from what was written. The hours are read in the zone of
 * the place; a close that is not after the opening is on the next day. What cannot be read is sent as null,
 * for the dashboard to refuse by its field.
 */
export function bookingBody(written: Pick<ReturnType<typeof readForm>, "text" | "textOrNull" | "number">) {
  const zone = written.text("zone");
  const date = written.text("date");
  const [open, close] = [written.text("openAtMs"), written.text("closeAtMs")];
  const isZone = isTimeZone(zone);
  const closeDate = close > open ? date : nextDay(date);
  return {
    boothId: written.text("boothId"),
    client: written.text("client"),
    place: written.text("place"),
    eventKind: written.text("eventKind"),
    zone,
    openAtMs: isZone ? instantOf(date, open, zone) : 0,
    closeAtMs: isZone ? instantOf(closeDate, close, zone) : 0,
    guests: written.number("guests"),
    sheetsLoaded: written.number("sheetsLoaded"),
    spareRolls: written.number("spareRolls") ?? 0,
    attendant: written.textOrNull("attendant"),
    latitudeDeg: written.number("latitudeDeg"),
    longitudeDeg: written.number("longitudeDeg"),
  };
}

function nextDay(date: string): string {
  const atMs = Date.parse(`${date}T00:00:00Z`);
  return Number.isNaN(atMs) ? date : new Date(atMs + dayMs).toISOString().slice(0, 10);
}

function isTimeZone(zone: string): boolean {
  try {
    new Intl.DateTimeFormat("en", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}
