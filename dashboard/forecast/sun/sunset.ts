import { getTimes } from "suncalc";

/** Where a booth stands on the earth. */
export type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

const noonMs = 12 * 3_600_000;

/**
 * Sunset at a place on the local day of an instant, as Unix ms; null where the sun does not set that day.
 *
 * Source: suncalc 2 (upper limb at the horizon, -0.833 degrees). The day is the calendar day of the event's
 * time zone, so that an event after midnight is not given the sunset of the evening before.
 */
export function sunsetAtMs(place: Place, atMs: number, zone: string): number | null {
  // suncalc takes the solar day nearest to the instant it is given: give it noon by the event's clocks.
  const noon = new Date(localNoonAtMs(atMs, zone));
  const { sunset } = getTimes(noon, place.latitudeDeg, place.longitudeDeg);
  return sunset === null ? null : sunset.getTime();
}

/** Noon of the calendar day that it is in the zone; an hour off on a day of clock change, which is no matter. */
function localNoonAtMs(atMs: number, zone: string): number {
  const parts = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
  }).formatToParts(new Date(atMs));
  const part = (type: string) => Number(parts.find((each) => each.type === type)?.value);
  const sinceMidnightMs = (part("hour") * 60 + part("minute")) * 60_000;
  const localMs = Date.UTC(part("year"), part("month") - 1, part("day")) + sinceMidnightMs;
  const minuteAtMs = Math.floor(atMs / 60_000) * 60_000;
  const aheadMs = localMs - minuteAtMs;
  return localMs - sinceMidnightMs + noonMs - aheadMs;
}
