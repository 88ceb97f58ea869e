/** Median and 95 % quantile of some measurements; NaN of none. */
export function figuresOf(measured: readonly number[]): { p50: number; p95: number } {
  const sorted = [...measured].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
  return { p50: at(0.5) ?? Number.NaN, p95: at(0.95) ?? Number.NaN };
}

/** One line of the bench's table. */
export type BenchRow = { readonly what: string; readonly figure: string; readonly against: string };

/** The rows under each other, in three columns. */
export function benchTable(rows: readonly BenchRow[]): string {
  const wide = (column: keyof BenchRow) => Math.max(...rows.map((row) => row[column].length)) + 2;
  const [what, figure] = [wide("what"), wide("figure")];
  return rows.map((row) => `${row.what.padEnd(what)}${row.figure.padEnd(figure)}${row.against}\n`).join("");
}
