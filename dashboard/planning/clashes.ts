import { eventOf, type Booking } from "@boothward/shared-types/booking";
import { greatCircleKm } from "./greatCircleKm.ts";

/** Another booking that cannot be kept beside this one. */
export type Clash = {
  /** `overlap`: at the same time; `tooClose`: the way between does not fit. */
  readonly kind: "overlap" | "tooClose";
  readonly of: "booth" | "attendant";
  readonly other: Booking;
  /** tooClose: minutes between the two, and those that packing, driving and setting up take. */
  readonly gapMin: number | null;
  readonly needsMin: number | null;
  readonly travelMin: number | null;
};

const minuteMs = 60_000;

/** Taking a booth down and putting it up, with the van. Common practice, no source. */
const packDownMin = 45;
const setUpMin = 60;

/** Roads are longer than the straight way by about so much, and a loaded van in town and country makes so much an hour. */
const detour = 1.3;
const vanKmPerHour = 50;

/**
 * What of the plan cannot be kept beside this booking: its booth or its attendant at two places at once, or with too
 * little time for packing, driving and setting up between. One attendant at two booths of one event is ordinary.
 *
 * The way is as long as the later booking says; else it is reckoned from the two places; where neither is known
 * it counts for nothing, so that what is said is certain.
 */
export function clashesOf(booking: Booking, plan: readonly Booking[]): Clash[] {
  return plan
    .filter((other) => other.bookingId !== booking.bookingId)
    .flatMap((other) => clashBetween(booking, other) ?? []);
}

function clashBetween(booking: Booking, other: Booking): Clash | null {
  const of = sharedBy(booking, other);
  if (of === null) return null;
  const { openAtMs, closeAtMs } = other;
  if (openAtMs < booking.closeAtMs && closeAtMs > booking.openAtMs)
    return { kind: "overlap", of, other, gapMin: null, needsMin: null, travelMin: null };
  const [first, second] = openAtMs < booking.openAtMs ? [other, booking] : [booking, other];
  const gapMin = Math.floor((readyBy(second) - first.closeAtMs) / minuteMs);
  const travelMin = travelBetween(first, second);
  const needsMin = isSamePlace(first, second) ? 0 : packDownMin + (travelMin ?? 0) + setUpMin;
  return gapMin < needsMin ? { kind: "tooClose", of, other, gapMin, needsMin, travelMin } : null;
}

function sharedBy(a: Booking, b: Booking): Clash["of"] | null {
  if (a.boothId === b.boothId) return "booth";
  const [one, two] = [nameOf(a), nameOf(b)];
  return one !== null && one === two && eventOf(a) !== eventOf(b) ? "attendant" : null;
}

function nameOf({ attendant }: Booking): string | null {
  const name = attendant?.trim().toLowerCase() ?? "";
  return name === "" ? null : name;
}

/** By when a booth is to stand: as promised, or at the opening. */
export function readyBy({ promisedAtMs, openAtMs }: Pick<Booking, "promisedAtMs" | "openAtMs">): number {
  return promisedAtMs === null ? openAtMs : Math.min(promisedAtMs, openAtMs);
}

/** One event, or one venue written the same way: nothing is packed. */
function isSamePlace(a: Booking, b: Booking): boolean {
  if (eventOf(a) === eventOf(b)) return true;
  const place = a.place.trim().toLowerCase();
  return place !== "" && place === b.place.trim().toLowerCase();
}

function travelBetween(from: Booking, to: Booking): number | null {
  if (to.travelMin !== null) return to.travelMin;
  const [a, b] = [placeOf(from), placeOf(to)];
  if (a === null || b === null) return null;
  return Math.ceil(((greatCircleKm(a, b) * detour) / vanKmPerHour) * 60);
}

function placeOf({ latitudeDeg, longitudeDeg }: Booking) {
  return latitudeDeg === null || longitudeDeg === null ? null : { latitudeDeg, longitudeDeg };
}
