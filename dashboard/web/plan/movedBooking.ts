import type { BookingEntry } from "../state/apiShapes.ts";
import { instantOf, wallOf } from "../words/zonedTime.ts";

const dayMs = 86_400_000;

/**
 * A booking as it is on another date: the same clock times, so many days later as `to` is after `from`, which are
 * another booking of its event before and after it was copied. The id is to be made anew, by the dashboard.
 */
export function movedBooking(
  booking: BookingEntry,
  from: Pick<BookingEntry, "openAtMs" | "zone">,
  to: Pick<BookingEntry, "openAtMs" | "zone">,
): BookingEntry {
  const dateOf = ({ openAtMs, zone }: typeof from) => Date.parse(wallOf(openAtMs, zone).date);
  const laterMs = dateOf(to) - dateOf(from);
  const { zone } = booking;
  const moved = (atMs: number) => {
    const { date, time } = wallOf(atMs, zone);
    const shifted = new Date(Date.parse(date) + laterMs).toISOString().slice(0, 10);
    return instantOf(shifted, time, zone) ?? atMs + Math.round(laterMs / dayMs) * dayMs;
  };
  return {
    ...{ ...booking, openAtMs: moved(booking.openAtMs), closeAtMs: moved(booking.closeAtMs) },
    promisedAtMs: booking.promisedAtMs === null ? null : moved(booking.promisedAtMs),
    breaks: booking.breaks.map(({ fromAtMs, toAtMs }) => ({
      fromAtMs: moved(fromAtMs),
      toAtMs: moved(toAtMs),
    })),
  };
}
