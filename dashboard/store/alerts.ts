import type { Kysely } from "kysely";
import type { AlertRow, Tables } from "./tables.ts";

/** Alerts as rows; what is in `body` is the rules' own. */
export function alerts(db: Kysely<Tables>) {
  return {
    /** Alerts of a booth that are not cleared. */
    async ofBooth(boothId: string): Promise<AlertRow[]> {
      return db
        .selectFrom("alert")
        .selectAll()
        .where("boothId", "=", boothId)
        .where("clearedAtMs", "is", null)
        .orderBy("sinceAtMs")
        .orderBy("alertId")
        .execute();
    },

    /** Adds or changes the ones, takes out the others, all or none. */
    async save({ save, remove }: AlertsToSave): Promise<void> {
      await db.transaction().execute(async (trx) => {
        for (const { alertId, ...rest } of save)
          await trx
            .insertInto("alert")
            .values({ alertId, ...rest })
            .onConflict((conflict) => conflict.column("alertId").doUpdateSet(rest))
            .execute();
        if (remove.length > 0) await trx.deleteFrom("alert").where("alertId", "in", remove).execute();
      });
    },
  };
}

type AlertsToSave = { readonly save: readonly AlertRow[]; readonly remove: readonly string[] };
