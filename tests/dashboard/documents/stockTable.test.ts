import type { StockMove } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { readStockTable, writeStockTable } from "../../../dashboard/documents/stockFiles/stockTable.ts";
import { stockAt, stockOf } from "../../../dashboard/planning/stock/stockOf.ts";
import { bought, stockMoves } from "../../support/aStockMove.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";

const booths = [{ boothId: "juniper", name: "Juniper" }];
const head = "when,from,to,rolls,sheets of a part roll,why";

function read(text: string, lines: readonly StockMove[] = []) {
  let made = 0;
  return readStockTable(text, {
    ...{ lines, booths, bookingIds: new Set(["fair"]), zone: "Europe/Berlin", by: "Ama" },
    ...{ atMs: sixAtMs + 86_400_000, makeId: () => `read-${(made += 1)}` },
  });
}

const write = (moves: readonly StockMove[]) =>
  writeStockTable(
    moves.map((move) => ({ ...move, isTakenBack: false })),
    booths,
    "Europe/Berlin",
  );

describe("the ledger of the stock as a table", () => {
  const moves = stockMoves(
    bought(20),
    { rolls: 4, note: "=SUM(A1:A9)" },
    { rolls: 2, toPlace: "event:fair" },
    { fromPlace: "used", rolls: 0, partialSheets: 158, why: "returned" },
    {
      ...{ fromPlace: "unexplained", toPlace: "store", rolls: 0, why: "counted" },
      counted: { fullRolls: 13, partials: [64, 90] },
    },
  );

  it("is there already when it comes back, and makes the same stock where nothing was", async () => {
    const text = write(moves);
    expect((await read(text, moves)).rows.map(({ does }) => does)).toEqual(moves.map(() => "same"));
    const fresh = await read(text);
    expect(fresh.problems).toEqual([]);
    expect(fresh.moves.map(({ note }) => note)).toEqual([null, "=SUM(A1:A9)", null, null, null]);
    expect(stockOf(fresh.moves)).toMatchObject({ places: stockOf(moves).places, bought: 20 });
    expect(stockAt(stockOf(fresh.moves), "store")).toMatchObject({ fullRolls: 13, partials: [90, 64] });
  });

  it("lets no spreadsheet run a note", () => {
    expect(write(moves)).toContain(",'=SUM(A1:A9),");
  });

  it("leaves out what was taken back", async () => {
    const text = `${head},taken back\n2026-05-01 10:00,store,lost,1,,lost,yes\n2026-05-01 10:00,,,0,,takenBack,\n`;
    expect(await read(text)).toMatchObject({
      problems: [],
      moves: [],
      rows: [{ does: "skipped" }, { does: "skipped" }],
    });
  });

  it.each([
    ["2026-05-01,store,lost,1,,lost", "when"],
    ["2026-03-29 02:30,store,lost,1,,lost", "when"],
    ["2099-05-01 10:00,store,lost,1,,lost", "when"],
    ["2026-05-01 10:00,case Sorrel,lost,1,,lost", "from"],
    ["2026-05-01 10:00,store,event gone,1,,loaded", "to"],
    ["2026-05-01 10:00,store,store,1,,loaded", "to"],
    ["2026-05-01 10:00,store,lost,1.5,,lost", "rolls"],
    ["2026-05-01 10:00,store,lost,-1,,lost", "rolls"],
    ["2026-05-01 10:00,store,lost,1,158,lost", "rolls"],
    ["2026-05-01 10:00,store,lost,,many,lost", "sheets of a part roll"],
    ["2026-05-01 10:00,,store,3,158 x,counted", "sheets of a part roll"],
    ["2026-05-01 10:00,,lost,3,,counted", "to"],
    ["2026-05-01 10:00,store,lost,1,,eaten", "why"],
    ["2026-05-01 10:00,supplier,on order,12,,ordered", "why"],
  ])("says of %s that it is the column %s", async (row, column) => {
    const { problems, moves: taken } = await read(`${head}\n2026-05-01 09:00,store,lost,1,,lost\n${row}\n`);
    expect(problems).toMatchObject([{ line: 3, column }]);
    expect(taken).toHaveLength(1);
  });
});
