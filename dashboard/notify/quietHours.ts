import type { QuietHours } from "@boothward/shared-types";
import { DateTime } from "luxon";

/**
 * When the quiet hours that hold at this instant end; null: they do not hold. They are read from the clock on the
 * wall of their zone: an hour that is there twice is quiet both times, and an end that is skipped comes at the
 * instant of the skip.
 */
export function quietUntilAtMs({ from, to, zone }: QuietHours, atMs: number): number | null {
  const now = DateTime.fromMillis(atMs, { zone });
  for (const daysOn of [-1, 0]) {
    const day = now.startOf("day").plus({ days: daysOn });
    const beginsAtMs = atWallClock(day, from, "first");
    const endDay = to > from ? day : day.plus({ days: 1 });
    const endsAtMs = atWallClock(endDay, to, "last");
    if (beginsAtMs <= atMs && atMs < endsAtMs) return endsAtMs;
  }
  return null;
}

/** The instant at which a day's clock shows a time; of two the one that is asked for, of none the one of the skip. */
function atWallClock(day: DateTime, time: string, which: "first" | "last"): number {
  const [hour = 0, minute = 0] = time.split(":").map(Number);
  const named = day.set({ hour, minute });
  if (named.hour !== hour || named.minute !== minute) return skipBefore(named);
  const both = named.getPossibleOffsets().map((possible) => possible.toMillis());
  return which === "first" ? Math.min(...both) : Math.max(...both);
}

/** The instant of the change of clocks that skipped a time, which lies in the hours before. */
function skipBefore(after: DateTime): number {
  let late = after.toMillis();
  let early = late - 3 * 3_600_000;
  const offsetAt = (atMs: number) => DateTime.fromMillis(atMs, { zone: after.zone }).offset;
  const offset = offsetAt(late);
  while (late - early > 1) {
    const middle = Math.floor((early + late) / 2);
    if (offsetAt(middle) === offset) late = middle;
    else early = middle;
  }
  return late;
}
