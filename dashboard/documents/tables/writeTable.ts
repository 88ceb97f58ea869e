import { stringify } from "csv-stringify/sync";
import { guardedCell } from "./cells.ts";

export type Cell = string | number | null;

/**
 * A table as CSV: commas, CRLF, quotes doubled; a byte-order mark, without which spreadsheets misread accents; and
 * no cell that a spreadsheet would run as a formula.
 *
 * Source: RFC 4180 section 2.
 */
export function writeTable(columns: readonly string[], rows: readonly (readonly Cell[])[]): string {
  const cells = rows.map((row) => row.map((cell) => (typeof cell === "string" ? guardedCell(cell) : cell)));
  return stringify([columns, ...cells], {
    record_delimiter: "\r\n",
    escape_formulas: true,
    bom: true,
  });
}
