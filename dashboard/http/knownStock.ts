import type { StockKnown } from "../planning/stock/stockView.ts";
import type { HttpSurroundings } from "./surroundings.ts";

/** All that is known of the stock at this moment. */
export async function knownStock(
  { store, rollMoves, plannedUse }: Pick<HttpSurroundings, "store" | "rollMoves" | "plannedUse">,
  atMs: number,
): Promise<StockKnown> {
  const written = await store.stock.moves();
  return {
    written,
    derived: await rollMoves(written, atMs),
    orders: await store.stock.orders(),
    planned: await plannedUse(atMs),
    nowMs: atMs,
  };
}
