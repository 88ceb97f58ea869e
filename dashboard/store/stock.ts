import { countedRolls, moveWhy, type StockMove } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import type { MediaOrderRow, StockMoveRow, Tables } from "./tables.ts";

/** The most rows that one insert of SQLite takes at 16 columns each, with room to spare. */
const rowsAtOnce = 500;

/** The ledger of the stock, and the orders. Lines are added and never changed. */
export function stock(db: Kysely<Tables>) {
  return {
    /** Every move that people wrote, in the order of happening. */
    async moves(): Promise<StockMove[]> {
      const rows = await db
        .selectFrom("stockMove")
        .selectAll()
        .orderBy("atMs")
        .orderBy("saidAtMs")
        .orderBy("moveId")
        .execute();
      return rows.map(moveOf);
    },

    async move(moveId: string): Promise<StockMove | null> {
      const row = await db
        .selectFrom("stockMove")
        .selectAll()
        .where("moveId", "=", moveId)
        .executeTakeFirst();
      return row === undefined ? null : moveOf(row);
    },

    /** The move that was written under this key; null: none yet. */
    async byOnceKey(onceKey: string): Promise<StockMove | null> {
      const row = await db
        .selectFrom("stockMove")
        .selectAll()
        .where("onceKey", "=", onceKey)
        .executeTakeFirst();
      return row === undefined ? null : moveOf(row);
    },

    /** Adds moves, all of them or none; those whose key is there already are left as they are. */
    async add(moves: readonly StockMove[]): Promise<void> {
      await db.transaction().execute((trx) => addMoves(trx, moves));
    },

    async orders(): Promise<MediaOrderRow[]> {
      return db.selectFrom("mediaOrder").selectAll().orderBy("orderedAtMs").orderBy("orderId").execute();
    },

    /** Adds an order with the move that puts its rolls on order. */
    async addOrder(order: MediaOrderRow, move: StockMove): Promise<void> {
      await db.transaction().execute(async (trx) => {
        await trx.insertInto("mediaOrder").values(order).execute();
        await addMoves(trx, [move]);
      });
    },
  };
}

async function addMoves(db: Kysely<Tables>, moves: readonly StockMove[]): Promise<void> {
  for (let at = 0; at < moves.length; at += rowsAtOnce)
    await db
      .insertInto("stockMove")
      .values(moves.slice(at, at + rowsAtOnce).map(rowOf))
      .onConflict((conflict) => conflict.column("onceKey").doNothing())
      .execute();
}

function rowOf({ counted, ...move }: StockMove): StockMoveRow {
  return { ...move, counted: counted === null ? null : JSON.stringify(counted) };
}

function moveOf({ counted, why, ...row }: StockMoveRow): StockMove {
  return {
    ...row,
    why: moveWhy.parse(why),
    counted: counted === null ? null : countedRolls.parse(JSON.parse(counted)),
  };
}
