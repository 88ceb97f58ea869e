import { getTimes } from "suncalc";
import { zoneOffsetMs } from "../../booth/zoneOffset.ts";

/** Where a booth stands on the earth. */
export type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

const dayMs = 24 * 3_600_000;
const noonMs = dayMs / 2;

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
  const aheadMs = zoneOffsetMs(atMs, zone);
  return Math.floor((atMs + aheadMs) / dayMs) * dayMs + noonMs - aheadMs;
}
