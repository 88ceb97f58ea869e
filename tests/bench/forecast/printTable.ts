import type { FamilyRow, MeasureRow } from "./resultTable.ts";

/** Measures with must and aim, then the families under each other. */
export function printTable(rows: readonly MeasureRow[], families: readonly FamilyRow[]): string {
  const measures = rows.map(({ measure, value, must, aim }) => [
    measure,
    value.toFixed(3),
    boundsText(must),
    boundsText(aim),
    verdict(value, must, aim),
  ]);
  const lines = families.map((row) => [
    row.family,
    String(row.evenings),
    row.pinball.toFixed(4),
    row.overNaive.toFixed(2),
    row.overBest.toFixed(2),
    ...row.thirds.map((ratio) => ratio.toFixed(2)),
    row.bias.toFixed(3),
    row.coverage.toFixed(2),
    percent(row.runOuts),
    percent(row.caught),
    percent(row.falseWarnings),
    row.best,
  ]);
  return [
    columns([["measure", "seen", "must", "aim", ""], ...measures]),
    columns([
      [
        "family",
        "evenings",
        "pinball",
        "/naive",
        "/best",
        "1st",
        "2nd",
        "3rd",
        "bias",
        "cover",
        "run-outs",
        "told",
        "false",
        "its best baseline",
      ],
      ...lines,
    ]),
  ].join("\n");
}

export function verdict(
  value: number,
  must: readonly [number, number],
  aim: readonly [number, number],
): string {
  if (within(value, aim)) return "reaches the aim";
  return within(value, must) ? "as it must" : "MISSES";
}

function within(value: number, [low, high]: readonly [number, number]): boolean {
  return value >= low && value <= high;
}

export function boundsText([low, high]: readonly [number, number]): string {
  if (low === -Infinity) return `<= ${String(high)}`;
  return high === Infinity ? `>= ${String(low)}` : `${String(low)} to ${String(high)}`;
}

function percent(share: number): string {
  return Number.isNaN(share) ? "-" : `${(100 * share).toFixed(0)} %`;
}

export function columns(rows: readonly (readonly string[])[]): string {
  const widths = (rows[0] ?? []).map((_, column) =>
    Math.max(...rows.map((row) => (row[column] ?? "").length)),
  );
  return rows
    .map(
      (row) =>
        `${row
          .map((cell, column) => cell.padEnd((widths[column] ?? 0) + 2))
          .join("")
          .trimEnd()}\n`,
    )
    .join("");
}
