import type { BoothEvening } from "@boothward/shared-types/view";
import type { Format } from "../words/format.ts";

const quarterMs = 15 * 60_000;

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
