import type { Kysely, Migration } from "kysely";

/** How a booth is built: walls, openings, the printer's place; JSON, null where nobody measured it. */
export const boothBoxes: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable("booth").addColumn("box", "text").execute();
  },
};
