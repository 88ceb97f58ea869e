import type { FileProblem } from "@boothward/shared-types";
import { CsvError, parse } from "csv-parse";
import { Readable } from "node:stream";
import { setImmediate as everythingElse } from "node:timers/promises";
import * as z from "zod";
import { plainCell } from "./cells.ts";
import { inTurns } from "./inTurns.ts";

/**
 * A row of a table, its cells by column, without those that the table has no column for; `line` is where it begins in
 * the file, the first is 1.
 */
export type TableRow = { readonly line: number; readonly cells: ReadonlyMap<string, string> };
export type TableRead = { readonly rows: readonly TableRow[]; readonly problems: readonly FileProblem[] };

/** A hundred events a week for ten years. */
const mostRows = 50_000;

type Recorded = { readonly record: readonly string[]; readonly info: { readonly lines: number } };

/**
 * Reads a table with a line of names at its top: commas, semicolons or tabs, whichever that line has most of; quotes,
 * line ends of any sort, a byte-order mark. Columns that are not asked for are left out; names do not depend on
 * capitals. A long file is read in turns with everything else.
 */
export async function readTable(
  text: string,
  columns: readonly string[],
  needed: readonly string[],
): Promise<TableRead> {
  try {
    const [head, ...body] = await recordsOf(text);
    if (head === undefined) return refused(1, "The file is empty.");
    const names = head.record.map((name) => name.trim().toLowerCase());
    const problem = wrongHead(names, needed);
    if (problem !== null) return refused(1, problem);
    if (body.length > mostRows)
      return refused(
        body[mostRows]?.info.lines ?? 1,
        `There are more than ${mostRows} rows; cut the file in two.`,
      );
    const places = columns
      .map((column) => [column, names.indexOf(column.toLowerCase())] as const)
      .filter(([, at]) => at >= 0);
    const rows: TableRow[] = [];
    await inTurns(body, ({ record, info }) => rows.push(rowOf(record, info.lines, places)));
    return { rows, problems: [] };
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    return refused(lineOf(error), sentenceOf(error));
  }
}

async function recordsOf(text: string): Promise<Recorded[]> {
  const parser = parse({
    ...{ bom: true, info: true, relax_column_count: true, skip_empty_lines: true },
    ...{ delimiter: delimiterOf(text), to: mostRows + 2 },
  });
  const records: Recorded[] = [];
  // The library's types do not know that with `info` a record is one of these.
  for await (const read of Readable.from(slicesOf(text)).compose(parser) as AsyncIterable<Recorded>)
    if (read.record.some((cell) => cell.trim() !== "")) records.push(read);
  return records;
}

/** So much of a file is read in a few milliseconds. */
const sliceBytes = 16_384;

/** Cut between bytes, which the parser puts together again: halves of a character would each become another one. */
async function* slicesOf(text: string): AsyncGenerator<Buffer> {
  const bytes = Buffer.from(text);
  for (let at = 0; at < bytes.length; at += sliceBytes) {
    yield bytes.subarray(at, at + sliceBytes);
    await everythingElse();
  }
}

/** Of the three that stands most often in the first line, outside of quotes. */
function delimiterOf(text: string): string {
  const [first = ""] = text
    .replace(/^\uFEFF/, "")
    .trimStart()
    .split(/\r\n|\n|\r/);
  const bare = first.replace(/"[^"]*"/g, "");
  const counted = [",", ";", "\t"].map((sign) => ({ sign, times: bare.split(sign).length }));
  return counted.reduce((most, each) => (each.times > most.times ? each : most)).sign;
}

function wrongHead(names: readonly string[], needed: readonly string[]): string | null {
  const missing = needed.filter((column) => !names.includes(column.toLowerCase()));
  if (missing.length > 0) return `The first line must name the columns; ${missing.join(", ")} is missing.`;
  const twice = names.find((name, at) => name !== "" && names.indexOf(name) !== at);
  return twice === undefined ? null : `The column ${twice} is there twice.`;
}

function rowOf(
  record: readonly string[],
  lastLine: number,
  places: readonly (readonly [string, number])[],
): TableRow {
  const breaks = record.reduce((sum, cell) => sum + cell.split(/\r\n|\n|\r/).length - 1, 0);
  const cells = new Map(places.map(([column, at]) => [column, plainCell((record[at] ?? "").trim())]));
  return { line: lastLine - breaks, cells };
}

function refused(line: number, sentence: string): TableRead {
  return { rows: [], problems: [{ line, column: null, sentence }] };
}

function lineOf(error: CsvError): number {
  const read = z.object({ lines: z.number() }).safeParse(error);
  return read.success ? read.data.lines : 1;
}

function sentenceOf(error: CsvError): string {
  return error.code === "CSV_QUOTE_NOT_CLOSED"
    ? "A quote is opened here and not closed."
    : "This line cannot be read: a quote stands where none can be.";
}
