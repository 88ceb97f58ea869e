import { zoneOffsetMs } from "../../booth/zoneOffset.ts";

/**
 * The instant of a wall-clock time in a zone, for the form of a booking.
 *
 * `date` is "2026-10-24", `time` "20:00". An hour that a zone passes over in spring gives the instant as far
 * after the change; an hour that comes twice in autumn gives the first of the two. Null when either text is
 * not a date or a time.
 */
export function instantOf(date: string, time: string, zone: string): number | null {
  const asIfUtc = Date.parse(`${date}T${time}:00Z`);
  if (Number.isNaN(asIfUtc)) return null;
  const before = zoneOffsetMs(asIfUtc - dayMs, zone);
  const after = zoneOffsetMs(asIfUtc + dayMs, zone);
  const first = asIfUtc - Math.max(before, after);
  const second = asIfUtc - Math.min(before, after);
  if (first + zoneOffsetMs(first, zone) === asIfUtc) return first;
  return second + zoneOffsetMs(second, zone) === asIfUtc ? second : asIfUtc - before;
}

/** The date and time of day that a clock in the zone shows at an instant, as a form's fields want them. */
export function wallOf(atMs: number, zone: string): { date: string; time: string } {
  const iso = new Date(atMs + zoneOffsetMs(atMs, zone)).toISOString();
  return { date: iso.slice(0, 10), time: iso.slice(11, 16) };
}

const dayMs = 86_400_000;
