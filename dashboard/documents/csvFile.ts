import { stringify } from "csv-stringify/sync";

/**
 * Records as a CSV file by RFC 4180: CRLF after each, quotes doubled, the same fields in all. A field that a
 * spreadsheet would run as a formula gets an apostrophe in front. A byte-order mark makes spreadsheets read UTF-8.
 */
export function csvFile(rows: readonly (readonly (string | number | null)[])[]): Buffer {
  const text = stringify(
    rows.map((row) => [...row]),
    { record_delimiter: "windows", escape_formulas: true, bom: true },
  );
  return Buffer.from(text, "utf8");
}
