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

    async put(name: string, body: unknown, atMs: number): Promise<void> {
      const row = { body: JSON.stringify(body), changedAtMs: atMs };
      await db
        .insertInto("setting")
        .values({ name, ...row })
        .onConflict((conflict) => conflict.column("name").doUpdateSet(row))
        .execute();
    },

    /** The setting, made by `make` and kept if there is none yet. */
    async getOrMake<T>(name: string, schema: Schema<T>, make: () => T, atMs: number): Promise<T> {
      return db.transaction().execute(async (trx) => {
        const row = await trx
          .selectFrom("setting")
          .select("body")
          .where("name", "=", name)
          .executeTakeFirst();
        if (row !== undefined) return schema.parse(JSON.parse(row.body));
        const made = make();
        const values = { name, body: JSON.stringify(made), changedAtMs: atMs };
        await trx.insertInto("setting").values(values).execute();
        return made;
      });
    },
  };
}
