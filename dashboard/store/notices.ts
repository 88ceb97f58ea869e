import type { NoticeEnd, Severity, ToldLine } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import {
  addDeliveries,
  dueOf,
  fullDeliveries,
  settle,
  type DueDelivery,
  type NewDelivery,
} from "./deliveryRows.ts";
import {
  addNotices,
  endSettled,
  noticeOf,
  standingOf,
  type AlertStanding,
  type NewNotice,
  type Notice,
} from "./noticeRows.ts";
import type { Person } from "./reaches.ts";
import type { Tables } from "./tables.ts";
import { toldOf, toldRows } from "./toldRows.ts";

export type { AlertStanding, DueDelivery, NewDelivery, NewNotice, Notice };

/** A notice with what became of its alert. */
export type DueNotice = Notice & { readonly alert: AlertStanding | null };

/** Deliveries gathered for one person, made into one notice. */
export type Digest = {
  readonly notice: NewNotice | null;
  readonly deliveries: readonly NewDelivery[];
  readonly digestedIds: readonly string[];
  /** Of alerts that are over by now. */
  readonly overIds: readonly string[];
};

/** A notice that reached a person's ways, as the count of a flood takes it. */
export type Arrival = {
  readonly noticeId: string;
  readonly atMs: number;
  readonly boothId: string | null;
  readonly severity: Severity;
};

/** Notices and their deliveries: each step is one transaction, so that a kill loses and doubles nothing. */
export function notices(db: Kysely<Tables>) {
  return {
    add(queued: readonly NewNotice[]): Promise<void> {
      return db.transaction().execute((trx) => addNotices(trx, queued));
    },

    /** Notices whose time has come and whose deliveries are not made, the first due first. */
    async dueToSpread(atMs: number, most: number): Promise<DueNotice[]> {
      const rows = await db
        .selectFrom("notice")
        .leftJoin("alert", "alert.alertId", "notice.alertId")
        .selectAll("notice")
        .select(["alert.body as alertBody", "alert.clearedAtMs as alertClearedAtMs"])
        .where("notice.spreadAtMs", "is", null)
        .where("notice.endedAtMs", "is", null)
        .where("notice.dueAtMs", "<=", atMs)
        .orderBy("notice.dueAtMs")
        .orderBy("notice.noticeId")
        .limit(most)
        .execute();
      return rows.map((row) => ({ ...noticeOf(row), alert: standingOf(row) }));
    },

    /** Makes deliveries of notices; one that is `ended` gets none, and one for nobody ends as such. */
    async spread(
      spreads: readonly { readonly noticeId: string; readonly ended: NoticeEnd | null }[],
      deliveries: readonly NewDelivery[],
      atMs: number,
    ): Promise<void> {
      await db.transaction().execute(async (trx) => {
        await addDeliveries(trx, deliveries);
        for (const { noticeId, ended } of spreads)
          await trx
            .updateTable("notice")
            .set({ spreadAtMs: atMs, ...(ended === null ? {} : { ended, endedAtMs: atMs }) })
            .where("noticeId", "=", noticeId)
            .execute();
        await endSettled(
          trx,
          spreads.map(({ noticeId }) => noticeId),
          atMs,
        );
      });
    },

    /** All that is gathered for the people of whom some may be sent by now. */
    async dueGathered(atMs: number): Promise<DueDelivery[]> {
      const rows = await fullDeliveries(db)
        .where("delivery.state", "=", "gathered")
        .orderBy("notice.createdAtMs")
        .orderBy("notice.noticeId")
        .execute();
      const all = rows.map((row) => dueOf(row, atMs));
      const due = new Set(
        all.filter(({ nextTryAtMs }) => nextTryAtMs <= atMs).map(({ reach }) => reach.person.personId),
      );
      return all.filter(({ reach }) => due.has(reach.person.personId));
    },

    /** Sends a person's gathered deliveries off as one notice, or ends them. */
    async saveDigest({ notice, deliveries, digestedIds, overIds }: Digest, atMs: number): Promise<void> {
      await db.transaction().execute(async (trx) => {
        if (notice !== null) {
          const row = { ...notice, spreadAtMs: atMs, endedAtMs: null, ended: null };
          await trx.insertInto("notice").values(row).execute();
          await addDeliveries(trx, deliveries);
          await endSettled(trx, [notice.noticeId], atMs);
        }
        await settle(trx, digestedIds, "digested", atMs);
        await settle(trx, overIds, "over", atMs);
      });
    },

    /** Notices that were spread to a person's ways from an instant on, without digests and tests. */
    async arrivalsOf(
      { role, personId }: Pick<Person, "role" | "personId">,
      fromAtMs: number,
    ): Promise<Arrival[]> {
      const rows = await db
        .selectFrom("delivery")
        .innerJoin("notice", "notice.noticeId", "delivery.noticeId")
        .innerJoin("reach", "reach.reachId", "delivery.reachId")
        .selectAll("notice")
        .distinct()
        .where(role === "owner" ? "reach.accountId" : "reach.passId", "=", personId)
        .where("notice.spreadAtMs", ">=", fromAtMs)
        .where("notice.why", "not in", ["digest", "test"])
        .orderBy("notice.spreadAtMs")
        .execute();
      return rows.map((row) => {
        const { noticeId, boothId, severity } = noticeOf(row);
        return { noticeId, boothId, severity, atMs: row.spreadAtMs ?? 0 };
      });
    },

    /** When a person was last sent a digest; null: never. */
    async lastDigestAtMs(personId: string): Promise<number | null> {
      const row = await db
        .selectFrom("notice")
        .select(({ fn }) => fn.max("spreadAtMs").as("atMs"))
        .where("toPersonId", "=", personId)
        .where("why", "=", "digest")
        .executeTakeFirst();
      return row?.atMs ?? null;
    },

    /** How many notices of a sort were queued for a person from an instant on. */
    async countFor(personId: string, why: string, fromAtMs: number): Promise<number> {
      const row = await db
        .selectFrom("notice")
        .select(({ fn }) => fn.countAll<number>().as("notices"))
        .where("toPersonId", "=", personId)
        .where("why", "=", why)
        .where("createdAtMs", ">=", fromAtMs)
        .executeTakeFirstOrThrow();
      return Number(row.notices);
    },

    async byId(noticeId: string): Promise<Notice | null> {
      const row = await db
        .selectFrom("notice")
        .selectAll()
        .where("noticeId", "=", noticeId)
        .executeTakeFirst();
      return row === undefined ? null : noticeOf(row);
    },

    /** Who was told of one notice. */
    async ofNotice(noticeId: string): Promise<ToldLine[]> {
      const rows = await toldRows(db).where("notice.noticeId", "=", noticeId).execute();
      return rows.map(toldOf);
    },

    /** Who was told of these alerts, in the order of telling. */
    async ofAlerts(alertIds: readonly string[]): Promise<ToldLine[]> {
      if (alertIds.length === 0) return [];
      const rows = await toldRows(db).where("notice.alertId", "in", alertIds).execute();
      return rows.map(toldOf);
    },
  };
}
