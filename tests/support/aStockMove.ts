import type { StockMove } from "@boothward/shared-types/stock";
import { sixAtMs } from "./aStoredItem.ts";

/** A move of one full roll from the store into Juniper's case; `over` changes what a test is about. */
export function aStockMove(over: Partial<StockMove> = {}): StockMove {
  const moveId = over.moveId ?? "move-1";
  return {
    ...{ moveId, onceKey: moveId, atMs: sixAtMs, saidAtMs: sixAtMs, by: "Ama" },
    ...{ fromPlace: "store", toPlace: "case:juniper", rolls: 1, partialSheets: null, why: "loaded" },
    ...{ counted: null, takes: null, boothId: null, bookingId: null, orderId: null, note: null },
    ...over,
  };
}

/** Moves in the order in which they are written, a minute apart, each with an id of its own: m1, m2, ... */
export function stockMoves(...all: readonly Partial<StockMove>[]): StockMove[] {
  return all.map((over, at) => {
    const atMs = sixAtMs + at * 60_000;
    return aStockMove({ moveId: `m${at + 1}`, atMs, saidAtMs: atMs, ...over });
  });
}

/** So many rolls were bought into the store. */
export function bought(rolls: number): Partial<StockMove> {
  return { fromPlace: "supplier", toPlace: "store", rolls, why: "bought" };
}
