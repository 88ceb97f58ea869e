/**
 * A spreadsheet takes a cell that begins so for a formula and runs it; full-width signs too.
 *
 * Source: OWASP, CSV Injection (from memory).
 */
const formulaBegins = /^'*[=+\-@\t\r\uFF1D\uFF0B\uFF0D\uFF20]/;

/** A cell as it is handed to the writer, which puts ' before a formula: one that had it already gets another. */
export function guardedCell(cell: string): string {
  return cell.startsWith("'") && formulaBegins.test(cell) ? `'${cell}` : cell;
}

/** A cell as it was before it was written: the ' that keeps a formula from being run is taken off. */
export function plainCell(cell: string): string {
  return cell.startsWith("'") && formulaBegins.test(cell) ? cell.slice(1) : cell;
}
