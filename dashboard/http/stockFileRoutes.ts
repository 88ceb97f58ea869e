import * as z from "zod";
import { readStockTable, writeStockTable } from "../documents/stockFiles/stockTable.ts";
import { moveLines } from "../planning/stock/stockView.ts";
import { stockOf } from "../planning/stock/stockOf.ts";
import { readBody, type Answer } from "./answer.ts";
import { fileReadOf } from "./fileRead.ts";
import { knownStock } from "./knownStock.ts";
import { zoneName } from "./planFileRoutes.ts";
import { ownerRoute, takesFile, type Route } from "./route.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const importBody = z.object({ text: z.string(), zone: zoneName, isLook: z.boolean() });
const exportQuery = z.object({ zone: zoneName.default("UTC") });

/** The ledger of the stock as a file, and lines from a file into it: all of them, or none. */
export function stockFileRoutes(with_: HttpSurroundings): Route[] {
  const { store, makeId } = with_;

  async function write(query: unknown, atMs: number): Promise<Answer> {
    const asked = readBody(exportQuery, query);
    if ("refusal" in asked) return asked.refusal;
    const known = await knownStock(with_, atMs);
    const lines = moveLines(known, stockOf([...known.written, ...known.derived])).reverse();
    const bytes = writeStockTable(lines, await store.booths.all(), asked.value.zone);
    return { status: 200, body: null, file: { bytes, type: "text/csv; charset=utf-8", name: "stock.csv" } };
  }

  async function read(body: unknown, by: string, atMs: number): Promise<Answer> {
    const asked = readBody(importBody, body);
    if ("refusal" in asked) return asked.refusal;
    const { text, zone, isLook } = asked.value;
    const { written, derived } = await knownStock(with_, atMs);
    const bookings = await store.bookings.all();
    const file = await readStockTable(text, {
      ...{ lines: [...written, ...derived], booths: await store.booths.all(), zone, by, atMs, makeId },
      bookingIds: new Set(bookings.map(({ bookingId }) => bookingId)),
    });
    const isKept = !isLook && file.problems.length === 0;
    if (isKept) await store.stock.add(file.moves);
    return { status: 200, body: fileReadOf(file.rows, file.problems, isKept) };
  }

  return [
    ownerRoute("get", "/api/stock/moves.csv", "keepStock", ({ query, atMs }) => write(query, atMs)),
    takesFile(
      ownerRoute("post", "/api/stock/moves/import", "keepStock", ({ body, signed, atMs }) =>
        read(body, signed.name, atMs),
      ),
    ),
  ];
}
