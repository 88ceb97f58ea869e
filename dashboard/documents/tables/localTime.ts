import { DateTime, IANAZone } from "luxon";

const written = /^(\d{4}-\d{2}-\d{2})[ T](\d{1,2}):(\d{2})(?::\d{2})?\s*(Z|[+-]\d{2}:\d{2})?$/i;

const minuteMs = 60_000;
const dayMs = 86_400_000;

/**
 * The instant of "2026-06-20 18:00" in a zone. An hour that comes twice in autumn is the first of the two, unless the
 * offset stands behind it ("+01:00"). A sentence where it is no time, or one that the zone passes over in spring.
 */
export function readLocalTime(text: string, zone: string): { atMs: number } | { sentence: string } {
  const parts = written.exec(text.trim());
  if (parts === null)
    return { sentence: `${text === "" ? "is empty" : `${text} is no time`}: write it as 2026-06-20 18:00` };
  const [, date = "", hour = "", minute = "", offset] = parts;
  const wall = `${date}T${hour.padStart(2, "0")}:${minute}`;
  const asUtcMs = Date.parse(`${wall}:00Z`);
  // A day that a month does not have is taken for one of the next by some: it must read as it was written.
  if (Number.isNaN(asUtcMs) || !new Date(asUtcMs).toISOString().startsWith(wall))
    return { sentence: `${text} is no time` };
  if (offset !== undefined) return { atMs: Date.parse(`${wall}:00${offset.toUpperCase()}`) };
  const atMs = instantIn(IANAZone.create(zone), asUtcMs);
  if (atMs === null) return { sentence: `${text} does not exist in ${zone}: the clocks go forward then` };
  return { atMs };
}

/** The first instant at which the clocks of a zone show what UTC's show at `asUtcMs`; null: they never do. */
function instantIn(zone: IANAZone, asUtcMs: number): number | null {
  const day = Math.floor(asUtcMs / dayMs);
  const offsets = [offsetAt(zone, day - 1), offsetAt(zone, day + 2)];
  const [before = 0, after = 0] = offsets;
  if (before === after) return asUtcMs - before;
  const instants = offsets
    .map((offsetMs) => ({ atMs: asUtcMs - offsetMs, offsetMs }))
    .filter(({ atMs, offsetMs }) => zone.offset(atMs) * minuteMs === offsetMs);
  return instants.length === 0 ? null : Math.min(...instants.map(({ atMs }) => atMs));
}

/** Offsets at the beginnings of days: to ask for one is slow, and a file has thousands of times. */
const dayOffsets = new Map<string, number>();
const mostDays = 4_000;

function offsetAt(zone: IANAZone, day: number): number {
  const key = `${zone.name} ${day}`;
  const known = dayOffsets.get(key);
  if (known !== undefined) return known;
  if (dayOffsets.size >= mostDays) dayOffsets.clear();
  const offsetMs = zone.offset(day * dayMs) * minuteMs;
  dayOffsets.set(key, offsetMs);
  return offsetMs;
}

/** An instant as a zone's clocks show it; with the offset where they show it twice. */
export function writeLocalTime(atMs: number, zone: string): string {
  const there = DateTime.fromMillis(atMs, { zone });
  return there.toFormat(there.getPossibleOffsets().length > 1 ? "yyyy-MM-dd HH:mm ZZ" : "yyyy-MM-dd HH:mm");
}
