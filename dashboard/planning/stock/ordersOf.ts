import type { MediaOrder, StockMove } from "@boothward/shared-types/stock";
import { effectiveMoves } from "./effectiveMoves.ts";

/** An order as it was written; what came of it is in the moves. */
export type WrittenOrder = Pick<MediaOrder, "orderId" | "rolls" | "orderedAtMs" | "expectedAtMs" | "note">;

/** The orders that hold, newest first, with what of each has come. One whose ordering was taken back is none. */
export function ordersOf(written: readonly WrittenOrder[], moves: readonly StockMove[]): MediaOrder[] {
  const effective = effectiveMoves(moves);
  const ofOrder = (orderId: string, why: StockMove["why"]) =>
    effective.filter((move) => move.orderId === orderId && move.why === why);
  return written
    .filter(({ orderId }) => ofOrder(orderId, "ordered").length > 0)
    .map((order) => {
      const arrivals = ofOrder(order.orderId, "arrived");
      const arrivedRolls = arrivals.reduce((sum, { rolls }) => sum + rolls, 0);
      const isWhole = arrivedRolls >= order.rolls;
      return { ...order, arrivedRolls, arrivedAtMs: isWhole ? (arrivals.at(-1)?.atMs ?? null) : null };
    })
    .sort((a, b) => b.orderedAtMs - a.orderedAtMs || (a.orderId < b.orderId ? 1 : -1));
}
