import type { Kysely, Migration } from "kysely";

/**
 * What a season of facts needs to be quick: the state of each booth as it was a while ago, so that a start folds what
 * came since; and facts by their kind, as what was taken back or chosen long ago bears on every report.
 */
export const quickSeason: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable("boothCheckpoint")
      .addColumn("boothId", "text", (c) => c.primaryKey().references("booth.boothId").onDelete("cascade"))
      .addColumn("fromAtMs", "bigint", (c) => c.notNull())
      .addColumn("build", "text", (c) => c.notNull())
      .addColumn("body", "text", (c) => c.notNull())
      .execute();
    await db.schema.createIndex("factByKind").on("fact").columns(["boothId", "kind", "atMs"]).execute();
  },
};
