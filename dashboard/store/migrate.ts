import { Migrator, type Kysely, type Migration } from "kysely";
import { firstTables } from "./migrations/001FirstTables.ts";
import { boothBoxes } from "./migrations/002BoothBox.ts";
import { alerting } from "./migrations/003Alerting.ts";
import { stockTables } from "./migrations/004Stock.ts";
import { reports } from "./migrations/005Reports.ts";
import { quickSeason } from "./migrations/006QuickSeason.ts";
import type { Tables } from "./tables.ts";

/** Every step in the order of its number; a step that was released is never changed. */
const migrations: Record<string, Migration> = {
  "001FirstTables": firstTables,
  "002BoothBox": boothBoxes,
  "003Alerting": alerting,
  "004Stock": stockTables,
  "005Reports": reports,
  "006QuickSeason": quickSeason,
};

/** The store has tables that this version does not know. */
export class StoreOfLaterVersion extends Error {
  constructor(cause: unknown) {
    super("The data folder was written by a later version of Boothward. Start that version on it.", {
      cause,
    });
    this.name = "StoreOfLaterVersion";
  }
}

/** Brings the store to this version's tables. Throws `StoreOfLaterVersion`, or what a step threw. */
export async function migrate(db: Kysely<Tables>): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = await migrator.migrateToLatest();
  if (error === undefined) return;
  if (!(error instanceof Error)) throw new Error("a step of the store's tables failed", { cause: error });
  // The query layer's own words for a step that was done and is not in the list.
  throw error.message.includes("is missing") ? new StoreOfLaterVersion(error) : error;
}
