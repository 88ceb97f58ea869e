import type { ReportQuarter } from "@boothward/shared-types";
import { zoneOffsetMs } from "../booth/zoneOffset.ts";

export type HourRow = ReportQuarter & { readonly toAtMs: number };

const hourMs = 3_600_000;
const quarterMs = hourMs / 4;
const spans = [1, 2, 3, 4, 6, 12];

/** Quarter-hours summed by the hour on the venue's wall, or by so many hours that no more than `mostRows` come. */
export function hourRows(quarters: readonly ReportQuarter[], zone: string, mostRows: number): HourRow[] {
  const all = spans.map((hours) => rowsOf(quarters, zone, hours * hourMs));
  return all.find((rows) => rows.length <= mostRows) ?? all.at(-1) ?? [];
}

function rowsOf(quarters: readonly ReportQuarter[], zone: string, spanMs: number): HourRow[] {
  const rows: HourRow[] = [];
  let lastSpan: string | null = null;
  for (const quarter of quarters) {
    const offsetMs = zoneOffsetMs(quarter.atMs, zone);
    // An hour that comes twice when the clocks go back is two rows.
    const span = `${Math.floor((quarter.atMs + offsetMs) / spanMs)} ${offsetMs}`;
    const last = rows.at(-1);
    const toAtMs = quarter.atMs + quarterMs;
    if (last === undefined || span !== lastSpan) rows.push({ ...quarter, toAtMs });
    else rows[rows.length - 1] = { ...sumOf(last, quarter), toAtMs };
    lastSpan = span;
  }
  return rows;
}

function sumOf(a: ReportQuarter, b: ReportQuarter): ReportQuarter {
  const both = (x: number | null, y: number | null) => (x === null || y === null ? null : x + y);
  return {
    atMs: a.atMs,
    sessions: a.sessions + b.sessions,
    prints: both(a.prints, b.prints),
    sheets: both(a.sheets, b.sheets),
  };
}
