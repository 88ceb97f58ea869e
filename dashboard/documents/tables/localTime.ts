import { DateTime } from "luxon";

const written = /^(\d{4}-\d{2}-\d{2})[ T](\d{1,2}):(\d{2})(?::\d{2})?\s*(Z|[+-]\d{2}:\d{2})?$/i;

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
  const read =
    offset === undefined ? inZone(wall, zone) : DateTime.fromISO(`${wall}${offset.toUpperCase()}`, { zone });
  if (!read.isValid) return { sentence: `${text} is no time` };
  if (offset === undefined && read.toFormat("yyyy-MM-dd'T'HH:mm") !== wall)
    return { sentence: `${text} does not exist in ${zone}: the clocks go forward then` };
  return { atMs: read.toMillis() };
}

function inZone(wall: string, zone: string): DateTime {
  const read = DateTime.fromISO(wall, { zone });
  if (!read.isValid) return read;
  return read.getPossibleOffsets().reduce((first, each) => (each < first ? each : first));
}

/** An instant as a zone's clocks show it; with the offset where they show it twice. */
export function writeLocalTime(atMs: number, zone: string): string {
  const there = DateTime.fromMillis(atMs, { zone });
  return there.toFormat(there.getPossibleOffsets().length > 1 ? "yyyy-MM-dd HH:mm ZZ" : "yyyy-MM-dd HH:mm");
}
