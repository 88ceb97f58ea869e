import type { Kysely } from "kysely";
import { addNotices, type NewNotice } from "./noticeRows.ts";
import type { AlertRow, AlertStepRow, Tables } from "./tables.ts";

/** Alerts as rows; what is in `body` is the rules' own. */
export function alerts(db: Kysely<Tables>) {
  return {
    /** Alerts of a booth that are not closed. */
    async ofBooth(boothId: string): Promise<AlertRow[]> {
      return db
        .selectFrom("alert")
        .selectAll()
        .where("boothId", "=", boothId)
        .where("closedAtMs", "is", null)
        .orderBy("sinceAtMs")
        .orderBy("alertId")
        .execute();
    },

    async byId(alertId: string): Promise<AlertRow | null> {
      const row = await db.selectFrom("alert").selectAll().where("alertId", "=", alertId).executeTakeFirst();
      return row ?? null;
    },

    /** Alerts that were raised and are not closed, or were raised or closed since an instant; the latest first. */
    async since(boothIds: readonly string[] | null, fromAtMs: number): Promise<AlertRow[]> {
      let query = db
        .selectFrom("alert")
        .selectAll()
        .where("raisedAtMs", "is not", null)
        .where((or) =>
          or.or([
            or("closedAtMs", "is", null),
            or("closedAtMs", ">=", fromAtMs),
            or("raisedAtMs", ">=", fromAtMs),
          ]),
        );
      if (boothIds !== null) query = query.where("boothId", "in", boothIds);
      return query.orderBy("raisedAtMs", "desc").limit(mostAlerts).execute();
    },

    /** The histories of these alerts, in the order of time. */
    async stepsOf(alertIds: readonly string[]): Promise<AlertStepRow[]> {
      if (alertIds.length === 0) return [];
      return db
        .selectFrom("alertStep")
        .selectAll()
        .where("alertId", "in", alertIds)
        .orderBy("atMs")
        .orderBy("stepId")
        .execute();
    },

    /** Whether this was said already: a page sends what it kept again. */
    async wasSaid(sayId: string): Promise<boolean> {
      const row = await db
        .selectFrom("alertStep")
        .select("stepId")
        .where("sayId", "=", sayId)
        .executeTakeFirst();
      return row !== undefined;
    },

    /** Adds or changes the ones, takes out the others, writes their history and queues notices, all or none. */
    async save({ save, remove, steps, notices }: AlertsToSave): Promise<void> {
      await db.transaction().execute(async (trx) => {
        for (const { alertId, ...rest } of save)
          await trx
            .insertInto("alert")
            .values({ alertId, ...rest })
            .onConflict((conflict) => conflict.column("alertId").doUpdateSet(rest))
            .execute();
        if (remove.length > 0) await trx.deleteFrom("alert").where("alertId", "in", remove).execute();
        if (steps.length > 0) await trx.insertInto("alertStep").values(steps).execute();
        await addNotices(trx, notices);
      });
    },
  };
}

/** A bad season's worth; the page shows the latest. */
const mostAlerts = 500;

export type AlertsToSave = {
  readonly save: readonly AlertRow[];
  readonly remove: readonly string[];
  readonly steps: readonly AlertStepRow[];
  readonly notices: readonly NewNotice[];
};
