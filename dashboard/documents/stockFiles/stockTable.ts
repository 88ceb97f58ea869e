import {
  countInput,
  moveInput,
  type FileProblem,
  type FileRow,
  type StockMove,
} from "@boothward/shared-types";
import { placeParts, places } from "../../planning/stock/places.ts";
import { issueSentence } from "../tables/issueSentence.ts";
import { inTurns } from "../tables/inTurns.ts";
import { readLocalTime, writeLocalTime } from "../tables/localTime.ts";
import { readTable, type TableRow } from "../tables/readTable.ts";
import { writeTable } from "../tables/writeTable.ts";

const columns = {
  moveId: "line",
  atMs: "when",
  fromPlace: "from",
  toPlace: "to",
  rolls: "rolls",
  partialSheets: "sheets of a part roll",
  why: "why",
  by: "by",
  note: "note",
  isTakenBack: "taken back",
} as const;

const needed = [columns.atMs, columns.fromPlace, columns.toPlace, columns.rolls, columns.why];

type Booth = { readonly boothId: string; readonly name: string };
type WrittenMove = StockMove & { readonly isTakenBack: boolean };

/** The ledger as CSV, oldest first; times as the clocks of `zone` show them. */
export function writeStockTable(
  moves: readonly WrittenMove[],
  booths: readonly Booth[],
  zone: string,
): string {
  return writeTable([
    Object.values(columns),
    ...moves.map((move) => [
      ...[move.moveId, writeLocalTime(move.atMs, zone)],
      ...[placeName(move.fromPlace, booths), placeName(move.toPlace, booths)],
      ...(move.counted === null
        ? [move.rolls, move.partialSheets]
        : [move.counted.fullRolls, move.counted.partials.join(" ")]),
      ...[move.why, move.by, move.note, move.isTakenBack ? "yes" : ""],
    ]),
  ]);
}

export type StockFile = {
  readonly rows: readonly FileRow[];
  readonly problems: readonly FileProblem[];
  readonly moves: readonly StockMove[];
};

/**
 * Reads moves and counts from such a table. A line that is in the ledger already is left as it is, so that a file that
 * is read twice adds nothing the second time; one that was taken back is left out. Orders are no lines of their own,
 * and are refused.
 */
export async function readStockTable(
  text: string,
  known: {
    readonly lines: readonly StockMove[];
    readonly booths: readonly Booth[];
    /** Events that rolls may be at. */
    readonly bookingIds: ReadonlySet<string>;
    readonly zone: string;
    readonly by: string;
    readonly atMs: number;
    readonly makeId: () => string;
  },
): Promise<StockFile> {
  const table = await readTable(text, Object.values(columns), needed);
  const problems = [...table.problems];
  const there = new Set(known.lines.flatMap(({ moveId, onceKey }) => [moveId, onceKey]));
  const times = new Map<string, number>();
  const rows: FileRow[] = [];
  const moves: StockMove[] = [];
  await inTurns(table.rows, (row) => {
    const shown = ["rolls", "fromPlace", "toPlace"].map((name) => cellOf(row, name as keyof typeof columns));
    const text = `${shown[0]}: ${shown[1]} → ${shown[2]}`;
    const onceKey = onceKeyOf(row, times);
    if (there.has(cellOf(row, "moveId")) || there.has(onceKey)) {
      rows.push({ line: row.line, does: "same", text });
      return;
    }
    if (cellOf(row, "why") === "takenBack" || cellOf(row, "isTakenBack") !== "") {
      rows.push({ line: row.line, does: "skipped", text });
      return;
    }
    const read = moveOf(row, onceKey, known);
    if ("problem" in read) problems.push(read.problem);
    else {
      rows.push({ line: row.line, does: "new", text });
      moves.push(read.move);
    }
  });
  return { rows, problems, moves };
}

/** What is written, and how often it was in this file before: the same line twice is two moves. */
function onceKeyOf(row: TableRow, times: Map<string, number>): string {
  const written = JSON.stringify(
    Object.keys(columns).map((name) => cellOf(row, name as keyof typeof columns)),
  );
  const before = times.get(written) ?? 0;
  times.set(written, before + 1);
  return `file ${before} ${written}`;
}

type ColumnName = keyof typeof columns;

function moveOf(
  row: TableRow,
  onceKey: string,
  known: Parameters<typeof readStockTable>[1],
): { readonly move: StockMove } | { readonly problem: FileProblem } {
  const cell = (name: ColumnName) => cellOf(row, name);
  const wrong = (column: ColumnName, sentence: string) => ({
    problem: { line: row.line, column: columns[column], sentence },
  });
  const when = readLocalTime(cell("atMs"), known.zone);
  if ("sentence" in when) return wrong("atMs", when.sentence);
  if (when.atMs > known.atMs) return wrong("atMs", `${cell("atMs")} has not come yet`);
  const why = cell("why");
  if (["ordered", "arrived"].includes(why))
    return wrong("why", `${why}: orders and what came of them are written on the Stock page`);
  const from = why === "counted" ? places.unexplained : placeCalled(cell("fromPlace"), known);
  if (from === null) return wrong("fromPlace", `${cell("fromPlace")} is no place of the stock`);
  const to = placeCalled(cell("toPlace"), known);
  if (to === null) return wrong("toPlace", `${cell("toPlace")} is no place of the stock`);
  const read = why === "counted" ? countedIn(row, to) : movedIn(row, from, to);
  if ("sentence" in read) return wrong(read.column, read.sentence);
  return {
    move: {
      ...{ moveId: known.makeId(), onceKey, atMs: when.atMs, saidAtMs: known.atMs, by: known.by },
      ...{ fromPlace: from, toPlace: to, takes: null, boothId: null, bookingId: null, orderId: null },
      ...{ note: noteIn(row), ...read },
    },
  };
}

type Wrong = { readonly column: ColumnName; readonly sentence: string };

/** What moved, by the checks of the form. */
function movedIn(
  row: TableRow,
  fromPlace: string,
  toPlace: string,
): Pick<StockMove, "rolls" | "partialSheets" | "why" | "counted"> | Wrong {
  const input = {
    ...{ onceKey: "file", fromPlace, toPlace, why: cellOf(row, "why"), note: noteIn(row) },
    ...{ rolls: figure(cellOf(row, "rolls")) ?? 0, partialSheets: figure(cellOf(row, "partialSheets")) },
  };
  const read = moveInput.safeParse(input);
  if (!read.success) return wrongIn(read.error.issues[0], input);
  const { rolls, partialSheets, why } = read.data;
  return { rolls, partialSheets, why, counted: null };
}

/** What was counted, by the checks of the form: full rolls, and the sheets of each part roll with blanks between. */
function countedIn(
  row: TableRow,
  place: string,
): Pick<StockMove, "rolls" | "partialSheets" | "why" | "counted"> | Wrong {
  const input = {
    ...{ onceKey: "file", place, note: noteIn(row), fullRolls: figure(cellOf(row, "rolls")) ?? 0 },
    partials: cellOf(row, "partialSheets")
      .split(/[\s,;]+/)
      .filter((sheets) => sheets !== "")
      .map(figure),
  };
  const read = countInput.safeParse(input);
  if (!read.success) return wrongIn(read.error.issues[0], input);
  const { fullRolls, partials } = read.data;
  return { rolls: 0, partialSheets: null, why: "counted", counted: { fullRolls, partials } };
}

/** The fields of the forms by the columns that they come from. */
const columnOfField: Readonly<Record<string, ColumnName>> = {
  ...{ fromPlace: "fromPlace", toPlace: "toPlace", place: "toPlace", rolls: "rolls", fullRolls: "rolls" },
  ...{ partialSheets: "partialSheets", partials: "partialSheets", why: "why", note: "note" },
};

function wrongIn(issue: Parameters<typeof issueSentence>[0], input: unknown): Wrong {
  return { column: columnOfField[String(issue?.path[0])] ?? "why", sentence: issueSentence(issue, input) };
}

function noteIn(row: TableRow): string | null {
  const note = cellOf(row, "note");
  return note === "" ? null : note;
}

const placeWords: Readonly<Record<string, string>> = { order: "on order" };

/** A place as it is written for people. */
function placeName(place: string, booths: readonly Booth[]): string {
  const { kind, id } = placeParts(place);
  if (id === null) return placeWords[kind] ?? kind;
  return `${kind} ${kind === "case" ? (booths.find(({ boothId }) => boothId === id)?.name ?? id) : id}`;
}

/** The place that is written so; null: none. */
function placeCalled(
  written: string,
  { booths, bookingIds }: { readonly booths: readonly Booth[]; readonly bookingIds: ReadonlySet<string> },
): string | null {
  const name = written.toLowerCase();
  if (name === placeWords["order"]) return "order";
  if (["store", "used", "lost", "unexplained", "supplier"].includes(name)) return name;
  const [kind = "", ...rest] = written.split(" ");
  const called = rest.join(" ");
  if (kind.toLowerCase() === "event") return bookingIds.has(called) ? `event:${called}` : null;
  if (kind.toLowerCase() !== "case") return null;
  const booth =
    booths.find(({ boothId }) => boothId === called) ??
    booths.find((each) => each.name.toLowerCase() === called.toLowerCase());
  return booth === undefined ? null : `case:${booth.boothId}`;
}

function cellOf({ cells }: TableRow, name: keyof typeof columns): string {
  return cells.get(columns[name]) ?? "";
}

function figure(cell: string): number | string | null {
  if (cell === "") return null;
  return Number.isNaN(Number(cell)) ? cell : Number(cell);
}
