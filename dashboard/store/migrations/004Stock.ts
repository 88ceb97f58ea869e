import type { Kysely, Migration } from "kysely";

/** The stock of rolls: a ledger of moves, and the orders that some of them belong to. */
export const stockTables: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable("stockMove")
      .addColumn("moveId", "text", (c) => c.primaryKey())
      .addColumn("onceKey", "text", (c) => c.notNull().unique())
      .addColumn("atMs", "bigint", (c) => c.notNull())
      .addColumn("saidAtMs", "bigint", (c) => c.notNull())
      .addColumn("by", "text")
      .addColumn("fromPlace", "text", (c) => c.notNull())
      .addColumn("toPlace", "text", (c) => c.notNull())
      .addColumn("rolls", "integer", (c) => c.notNull())
      .addColumn("partialSheets", "integer")
      .addColumn("why", "text", (c) => c.notNull())
      .addColumn("counted", "text")
      .addColumn("takes", "text")
      .addColumn("boothId", "text")
      .addColumn("bookingId", "text")
      .addColumn("orderId", "text")
      .addColumn("note", "text")
      .execute();
    await db.schema.createIndex("stockMoveByTime").on("stockMove").columns(["atMs"]).execute();
    await db.schema
      .createTable("mediaOrder")
      .addColumn("orderId", "text", (c) => c.primaryKey())
      .addColumn("rolls", "integer", (c) => c.notNull())
      .addColumn("orderedAtMs", "bigint", (c) => c.notNull())
      .addColumn("expectedAtMs", "bigint")
      .addColumn("note", "text")
      .execute();
  },
};
