/** Where a venue lies, so that the sun and the clock on its wall agree. */
export type Venue = {
  /** Whole-hour IANA zone. */
  readonly zone: string;
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
};

const hourMs = 3_600_000;

/** The day is shown in its late afternoon: guests are there and the sun is low, and still up. */
const wantedHour = 16;

/** Far enough from the equator for a long summer evening. */
const summerLatitudeDeg = 38;

/**
 * A place where it is between 16:00 and 17:00 at this moment, on the half of the earth that has its
 * longer days (22 March to 22 September north, else south): there the sun is up until 18:00 at least.
 *
 * The longitude is the middle of the zone, 15 degrees an hour, so the clock runs with the sun.
 */
export function venueAt(nowMs: number): Venue {
  const utcHour = Math.floor(nowMs / hourMs) % 24;
  const aheadHours = ((((wantedHour - utcHour + 12) % 24) + 24) % 24) - 12;
  return {
    zone: wholeHourZone(aheadHours),
    latitudeDeg: isNorthernSummer(nowMs) ? summerLatitudeDeg : -summerLatitudeDeg,
    longitudeDeg: aheadHours * 15,
  };
}

/** Zone so many hours ahead of UTC. The signs of these names are inverted: Etc/GMT-3 is 3 h ahead. */
export function wholeHourZone(aheadHours: number): string {
  if (aheadHours === 0) return "Etc/GMT";
  return `Etc/GMT${aheadHours > 0 ? "-" : "+"}${String(Math.abs(aheadHours))}`;
}

function isNorthernSummer(nowMs: number): boolean {
  const now = new Date(nowMs);
  const monthDay = (now.getUTCMonth() + 1) * 100 + now.getUTCDate();
  return monthDay >= 322 && monthDay < 922;
}
