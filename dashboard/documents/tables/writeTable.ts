import { stringify } from "csv-stringify/sync";
import { guardedCell } from "./cells.ts";

export type Cell = string | number | null;

/**
 * A table as CSV, its first row the names of the columns: commas, CRLF, quotes doubled; a byte-order mark, without
 * which spreadsheets misread accents; and no cell that a spreadsheet would run as a formula.
 *
 * Source: RFC 4180 section 2.
 */
export function writeTable(rows: readonly (readonly Cell[])[]): string {
  const cells = rows.map((row) => row.map((cell) => (typeof cell === "string" ? guardedCell(cell) : cell)));
  return stringify(cells, {
    ...{ record_delimiter: "windows", escape_formulas: true, bom: true },
    // Either half of a line end is one to some readers (rule 6); the library minds only the whole.
    quoted_match: /[\r\n]/,
  });
}
