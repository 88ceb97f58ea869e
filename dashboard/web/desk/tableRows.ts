import type { HeatAhead } from "@boothward/shared-types/site";
import type { BoothEvening } from "@boothward/shared-types/view";
import type { RowGroup } from "../parts/FigureTable.tsx";
import { paper } from "../words/en/booth.ts";
import { heatAhead as words } from "../words/en/heatAhead.ts";
import type { Format } from "../../alerts/format.ts";

const quarterMs = 15 * 60_000;

/** A temperature each quarter of an hour. */
export function heatRows(inside: BoothEvening["inside"], format: Format): string[][] {
  const rows: string[][] = [];
  let nextAtMs = -Infinity;
  for (const point of inside) {
    if (point.atMs < nextAtMs) continue;
    rows.push([format.clock(point.atMs), format.temperature(point.insideC, 1), ""]);
    nextAtMs = point.atMs + quarterMs;
  }
  return rows;
}

/** The measured hours, then the next one at each thermometer with its band of eight in ten. */
export function heatGroups(
  inside: BoothEvening["inside"],
  ahead: readonly HeatAhead[],
  format: Format,
): RowGroup[] {
  const isOne = ahead.length === 1;
  return [
    { name: words.measured, rows: heatRows(inside, format) },
    ...ahead.map(({ sensor, fan }) => ({
      name: words.expected(isOne ? null : sensor),
      rows: fan
        .filter((_, step) => step > 0 && step % 3 === 0)
        .map(({ atMs, p10, p50, p90 }) => [
          format.clock(atMs),
          format.temperature(p50, 1),
          paper.within(format.temperature(p10), format.temperature(p90)),
        ]),
    })),
  ];
}

export function sessionRows(quarters: BoothEvening["quarters"], format: Format): string[][] {
  return quarters.map((quarter) => [
    format.clock(quarter.atMs),
    format.count(quarter.sessions),
    format.count(quarter.pitches),
  ]);
}
