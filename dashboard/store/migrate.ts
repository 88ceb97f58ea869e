import { Migrator, type Kysely, type Migration } from "kysely";
import { firstTables } from "./migrations/001FirstTables.ts";
import type { Tables } from "./tables.ts";

/** Every step in the order of its number; a step that was released is never changed. */
const migrations: Record<string, Migration> = { "001FirstTables": firstTables };

/** Brings the store to this version's tables. Throws when the store was written by a later version. */
export async function migrate(db: Kysely<Tables>): Promise<void> {
  const migrator = new Migrator({ db, provider: { getMigrations: () => Promise.resolve(migrations) } });
  const { error } = await migrator.migrateToLatest();
  if (error === undefined) return;
  throw new Error("The store could not be brought to this version's tables.", { cause: error });
}
