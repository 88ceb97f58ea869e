import type { Kysely, Migration } from "kysely";

/** The state of each booth as it was a while ago, so that a start folds what came since and not a whole season. */
export const boothCheckpoints: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable("boothCheckpoint")
      .addColumn("boothId", "text", (c) => c.primaryKey().references("booth.boothId").onDelete("cascade"))
      .addColumn("fromAtMs", "bigint", (c) => c.notNull())
      .addColumn("build", "text", (c) => c.notNull())
      .addColumn("body", "text", (c) => c.notNull())
      .execute();
  },
};
