import type { Kysely } from "kysely";
import type { Tables } from "./tables.ts";

type Schema<T> = { parse(input: unknown): T };

/** What was chosen, JSON by name; whoever reads a name brings its schema. */
export function settings(db: Kysely<Tables>) {
  return {
    /** The setting, or null when nobody set it. Throws when what is stored does not fit the schema. */
    async get<T>(name: string, schema: Schema<T>): Promise<T | null> {
      const row = await db.selectFrom("setting").select("body").where("name", "=", name).executeTakeFirst();
      return row === undefined ? null : schema.parse(JSON.parse(row.body));
    },
  };
}
