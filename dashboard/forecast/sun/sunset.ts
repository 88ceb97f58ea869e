import { getTimes } from "suncalc";

/** Where a booth stands on the earth. */
export type Place = { readonly latitudeDeg: number; readonly longitudeDeg: number };

const dayMs = 86_400_000;

/**
 * Sunset at a place on the local day of an instant, as Unix ms; null where the sun does not set that day.
 *
 * Source: suncalc 2 (upper limb at the horizon, -0.833 degrees). The day is the calendar day of the event's
 * time zone, so that an event after midnight is not given the sunset of the evening before.
 */
export function sunsetAtMs(place: Place, atMs: number, zone: string): number | null {
  const { latitudeDeg, longitudeDeg } = place;
  // suncalc takes the solar day nearest to the instant it is given: give it that day's noon by the sun.
  const noonAtMs = localDayUtcMs(atMs, zone) + dayMs / 2 - (longitudeDeg / 360) * dayMs;
  const sunset = getTimes(new Date(noonAtMs), latitudeDeg, longitudeDeg).sunset;
  return sunset === null ? null : sunset.getTime();
}

/** Midnight UTC of the calendar day that it is in the zone. */
function localDayUtcMs(atMs: number, zone: string): number {
  const parts = new Intl.DateTimeFormat("en-US", {
    timeZone: zone,
    year: "numeric",
    month: "numeric",
    day: "numeric",
  }).formatToParts(new Date(atMs));
  const part = (type: string) => Number(parts.find((each) => each.type === type)?.value);
  return Date.UTC(part("year"), part("month") - 1, part("day"));
}
