import { isTimeZone, type Booking, type FileProblem } from "@boothward/shared-types";
import { inTurns } from "../tables/inTurns.ts";
import { readLocalTime, writeLocalTime } from "../tables/localTime.ts";
import { readTable, type TableRow } from "../tables/readTable.ts";
import { writeTable } from "../tables/writeTable.ts";
import { figureOf, planCells } from "./planCells.ts";
import type { RawBooking } from "./rawBooking.ts";

/** The first columns of a run sheet as a table, each with the field that it holds; the others are `planCells`. */
const columns = {
  bookingId: "booking",
  boothId: "booth",
  client: "client",
  place: "place",
  eventKind: "kind",
  zone: "time zone",
  openAtMs: "opens",
  closeAtMs: "closes",
  latitudeDeg: "latitude",
  longitudeDeg: "longitude",
  notes: "notes",
} as const;
type ColumnName = keyof typeof columns;

const allColumns = [...Object.values(columns), ...planCells.map(({ column }) => column)];
const needed = [columns.boothId, columns.client, columns.eventKind, columns.openAtMs, columns.closeAtMs];

/** The run sheet as CSV; times as the clocks of each place show them. */
export function writePlanTable(
  bookings: readonly Booking[],
  booths: readonly { readonly boothId: string; readonly name: string }[],
): string {
  const names = new Map(booths.map(({ boothId, name }) => [boothId, name]));
  return writeTable([
    allColumns,
    ...bookings.map((booking) => [
      ...[booking.bookingId, names.get(booking.boothId) ?? booking.boothId, booking.client, booking.place],
      ...[booking.eventKind, booking.zone],
      ...[writeLocalTime(booking.openAtMs, booking.zone), writeLocalTime(booking.closeAtMs, booking.zone)],
      ...[booking.latitudeDeg, booking.longitudeDeg, booking.notes],
      ...planCells.map((cell) => cell.write(booking)),
    ]),
  ]);
}

/**
 * Reads such a table. Times without a zone of their own are read in that of the booking they change (one of
 * `known`), or else in `zone`.
 */
export async function readPlanTable(
  text: string,
  zone: string,
  known: readonly Booking[],
): Promise<{ readonly raws: readonly RawBooking[]; readonly problems: readonly FileProblem[] }> {
  const table = await readTable(text, allColumns, needed);
  const problems = [...table.problems];
  const zones = new Map(known.map((booking) => [booking.bookingId, booking.zone]));
  const raws: RawBooking[] = [];
  await inTurns(table.rows, (row) => {
    const read = rawOf(row, zones.get(cellOf(row, "bookingId") ?? "") ?? zone);
    if ("raw" in read) raws.push(read.raw);
    else problems.push(read.problem);
  });
  return { raws, problems };
}

/** The name of the column that holds a field, or a part of one, for people. */
export function columnOf(path: string | null): string | null {
  if (path === null) return null;
  if (path in columns) return columns[path as ColumnName];
  const cell =
    planCells.find((each) => path === each.path || path.startsWith(`${each.path}.`)) ??
    planCells.find((each) => each.path.startsWith(`${path}.`));
  return cell?.column ?? path;
}

function rawOf(
  row: TableRow,
  otherZone: string,
): { readonly raw: RawBooking } | { readonly problem: FileProblem } {
  const { line } = row;
  const cell = (name: ColumnName) => cellOf(row, name) ?? "";
  const wrong = (column: string, sentence: string) => ({ problem: { line, column, sentence } });
  const zone = cell("zone") === "" ? otherZone : cell("zone");
  if (!isTimeZone(zone)) return wrong("zone", `${zone} is not a time zone`);
  const opens = readLocalTime(cell("openAtMs"), zone);
  if ("sentence" in opens) return wrong("openAtMs", opens.sentence);
  const closes = readLocalTime(cell("closeAtMs"), zone);
  if ("sentence" in closes) return wrong("closeAtMs", closes.sentence);
  const fields: Record<string, unknown> = {
    ...{ client: cell("client"), eventKind: cell("eventKind"), zone },
    ...{ openAtMs: opens.atMs, closeAtMs: closes.atMs },
  };
  for (const name of ["place", "notes"] as const)
    if (cellOf(row, name) !== undefined) fields[name] = cell(name);
  for (const name of ["latitudeDeg", "longitudeDeg"] as const)
    if (cellOf(row, name) !== undefined) fields[name] = figureOf(cell(name));
  for (const { column, path, read } of planCells) {
    const written = row.cells.get(column);
    if (written === undefined) continue;
    const its = read(written, zone);
    if ("sentence" in its) return wrong(path, its.sentence);
    fields[path] = its.said;
  }
  const bookingId = cell("bookingId") === "" ? null : cell("bookingId");
  return { raw: { line, bookingId, booth: cell("boothId"), fields } };
}

/** undefined: the table has no such column. */
function cellOf({ cells }: TableRow, name: ColumnName): string | undefined {
  return cells.get(columns[name]);
}
