import { noStanding, type Booking, type FileProblem } from "@boothward/shared-types";
import { IANAZone } from "luxon";
import { readLocalTime, writeLocalTime } from "../tables/localTime.ts";
import { readTable, type TableRow } from "../tables/readTable.ts";
import { writeTable } from "../tables/writeTable.ts";
import type { RawBooking } from "./rawBooking.ts";

/** The columns of a run sheet as a table, each with the field that it holds. */
const columns = {
  bookingId: "booking",
  boothId: "booth",
  client: "client",
  place: "place",
  eventKind: "kind",
  zone: "time zone",
  openAtMs: "opens",
  closeAtMs: "closes",
  guests: "guests",
  sheetsLoaded: "sheets loaded",
  spareRolls: "spare rolls",
  attendant: "attendant",
  latitudeDeg: "latitude",
  longitudeDeg: "longitude",
  headingDeg: "heading",
  expectedHighC: "expected high C",
} as const;
type ColumnName = keyof typeof columns;

const needed = [columns.boothId, columns.client, columns.eventKind, columns.openAtMs, columns.closeAtMs];

/** The run sheet as CSV; times as the clocks of each place show them. */
export function writePlanTable(
  bookings: readonly Booking[],
  booths: readonly { readonly boothId: string; readonly name: string }[],
): string {
  const names = new Map(booths.map(({ boothId, name }) => [boothId, name]));
  return writeTable(
    Object.values(columns),
    bookings.map((booking) => [
      ...[booking.bookingId, names.get(booking.boothId) ?? booking.boothId, booking.client, booking.place],
      ...[booking.eventKind, booking.zone],
      ...[writeLocalTime(booking.openAtMs, booking.zone), writeLocalTime(booking.closeAtMs, booking.zone)],
      ...[booking.guests, booking.sheetsLoaded, booking.spareRolls, booking.attendant],
      ...[booking.latitudeDeg, booking.longitudeDeg],
      ...[booking.standing.headingDeg, booking.standing.expectedHighC],
    ]),
  );
}

/** Reads such a table; times without a zone of their own are read in `zone`. `known` keeps what a table has no column for. */
export function readPlanTable(
  text: string,
  zone: string,
  known: readonly Booking[],
): { readonly raws: readonly RawBooking[]; readonly problems: readonly FileProblem[] } {
  const table = readTable(text, Object.values(columns), needed);
  const problems = [...table.problems];
  const byId = new Map(known.map((booking) => [booking.bookingId, booking]));
  const raws = table.rows.flatMap((row) => {
    const read = rawOf(row, zone, byId.get(cellOf(row, "bookingId")) ?? null);
    if ("raw" in read) return [read.raw];
    problems.push(read.problem);
    return [];
  });
  return { raws, problems };
}

/** The name of the column that holds a field, for people. */
export function columnOf(field: string | null): string | null {
  if (field === null) return null;
  const name = field.startsWith("standing.") ? field.slice("standing.".length) : field;
  return name in columns ? columns[name as ColumnName] : field;
}

function rawOf(
  row: TableRow,
  zone: string,
  before: Booking | null,
): { readonly raw: RawBooking } | { readonly problem: FileProblem } {
  const { line } = row;
  const cell = (name: ColumnName) => cellOf(row, name);
  const its = cell("zone") === "" ? zone : cell("zone");
  const wrong = (column: ColumnName, sentence: string) => ({ problem: { line, column, sentence } });
  if (!IANAZone.isValidZone(its)) return wrong("zone", `${its} is not a time zone`);
  const opens = readLocalTime(cell("openAtMs"), its);
  if ("sentence" in opens) return wrong("openAtMs", opens.sentence);
  const closes = readLocalTime(cell("closeAtMs"), its);
  if ("sentence" in closes) return wrong("closeAtMs", closes.sentence);
  const standing = { ...(before?.standing ?? noStanding) };
  const raw: RawBooking = {
    line,
    bookingId: cell("bookingId") === "" ? null : cell("bookingId"),
    booth: cell("boothId"),
    fields: {
      ...{ client: cell("client"), place: cell("place"), eventKind: cell("eventKind"), zone: its },
      ...{ openAtMs: opens.atMs, closeAtMs: closes.atMs },
      ...{ guests: figure(cell("guests")), sheetsLoaded: figure(cell("sheetsLoaded")) },
      ...{ spareRolls: figure(cell("spareRolls")) ?? 1 },
      attendant: cell("attendant") === "" ? null : cell("attendant"),
      ...{ latitudeDeg: figure(cell("latitudeDeg")), longitudeDeg: figure(cell("longitudeDeg")) },
      standing: {
        ...standing,
        headingDeg: figure(cell("headingDeg")),
        expectedHighC: figure(cell("expectedHighC")),
      },
    },
  };
  return { raw };
}

function cellOf({ cells }: TableRow, name: ColumnName): string {
  return cells.get(columns[name]) ?? "";
}

/** The figure of a cell, null for an empty one; what is no figure stays as it is, to be refused by its column. */
function figure(cell: string): number | string | null {
  if (cell === "") return null;
  const read = Number(/^-?\d+,\d+$/.test(cell) ? cell.replace(",", ".") : cell);
  return Number.isNaN(read) ? cell : read;
}
