/**
 * The instant, Unix ms, in a text by which Windows writes one; null where there is none, or none that says its
 * zone. Three ways are in use: ISO 8601, what ConvertTo-Json of PowerShell 5.1 makes of a date, and DMTF.
 *
 * **Source:** DMTF DSP0004 (CIM datetime: local time, then minutes from UTC) and the behaviour of Windows
 * PowerShell 5.1, both from memory.
 */
export function readWindowsMoment(text: string): number | null {
  const ms = fromIso(text) ?? fromSlashDate(text) ?? fromDmtf(text);
  return ms !== null && Number.isFinite(ms) ? ms : null;
}

function fromIso(text: string): number | null {
  const saysZone = /^\d{4}-\d\d-\d\dT[\d:.]+(Z|[+-]\d\d:\d\d)$/.test(text);
  return saysZone ? Date.parse(text) : null;
}

/** "/Date(1781978400000)/"; an offset behind the number says how it was shown, the number is UTC all the same. */
function fromSlashDate(text: string): number | null {
  const found = /^\/Date\((-?\d+)([+-]\d{4})?\)\/$/.exec(text);
  return found ? Number(found[1]) : null;
}

/** "20260620200000.500000+120" */
function fromDmtf(text: string): number | null {
  const found = /^(\d{4})(\d\d)(\d\d)(\d\d)(\d\d)(\d\d)\.(\d{6})([+-]\d{3})$/.exec(text);
  if (!found) return null;
  const [year = 0, month = 1, day = 1, hour = 0, minute = 0, second = 0, micro = 0, offset = 0] = found
    .slice(1)
    .map(Number);
  return Date.UTC(year, month - 1, day, hour, minute - offset, second) + Math.floor(micro / 1_000);
}
