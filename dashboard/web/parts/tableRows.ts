import type { BoothEvening } from "@boothward/shared-types/view";
import type { Format } from "../words/format.ts";
import { fanAt } from "./stripShape.ts";
import type { StripInput } from "./stripShape.ts";

const halfHourMs = 30 * 60_000;
const quarterMs = 15 * 60_000;

/** Sheets left each half hour: as it was, then as expected with the band of eight in ten. */
export function paperRows(input: StripInput, format: Format): string[][] {
  const rows: string[][] = [];
  for (
    let atMs = Math.ceil(input.openAtMs / halfHourMs) * halfHourMs;
    atMs <= input.toAtMs;
    atMs += halfHourMs
  ) {
    const was = input.past.findLast((point) => point.atMs <= atMs);
    if (atMs <= input.knownAtMs) {
      if (was !== undefined) rows.push([format.clock(atMs), format.count(was.sheetsLeft), ""]);
      continue;
    }
    const point = fanAt(input.fan, atMs);
    if (point === null) continue;
    const [low, likely, high] = [point.p10, point.p50, point.p90].map((n) => format.count(Math.max(0, n)));
    rows.push([format.clock(atMs), likely ?? "", `${low} to ${high}`]);
  }
  return rows;
}

/** A temperature each quarter of an hour. */
export function heatRows(inside: BoothEvening["inside"], format: Format): string[][] {
  const rows: string[][] = [];
  let nextAtMs = -Infinity;
  for (const point of inside) {
    if (point.atMs < nextAtMs) continue;
    rows.push([format.clock(point.atMs), format.temperature(point.insideC, 1)]);
    nextAtMs = point.atMs + quarterMs;
  }
  return rows;
}

export function sessionRows(quarters: BoothEvening["quarters"], format: Format): string[][] {
  return quarters.map((quarter) => [
    format.clock(quarter.atMs),
    format.count(quarter.sessions),
    format.count(quarter.pitches),
  ]);
}
