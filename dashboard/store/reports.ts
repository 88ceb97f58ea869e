import type { StoredItem } from "@boothward/shared-types";
import { sql, type Kysely, type Transaction } from "kysely";
import { dashboardName, itemOf } from "./boothItems.ts";
import type { AlertRow, ReportCacheRow, ReportCorrectionRow, Tables } from "./tables.ts";
import type { ReportLinkRow } from "./tables.ts";

type Stretch = { readonly fromAtMs: number; readonly toAtMs: number };

/** The temperature of one minute, over all thermometers. */
type InsideMinute = {
  readonly atMs: number;
  readonly minC: number;
  readonly meanC: number;
  readonly maxC: number;
};

const itemColumns = ["atMs", "receivedAtMs", "boothId", "bootId", "body"] as const;

/** What reports are made of, those that were made, and what people did with them. */
export function reports(db: Kysely<Tables>) {
  return {
    /**
     * Facts of a stretch, in no order, with what bears on them from outside of it: the source that a person named
     * before, and what was taken back later.
     */
    async facts(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<StoredItem[]> {
      const ofBooth = db.selectFrom("fact").select(itemColumns).where("boothId", "=", boothId);
      const rows = await ofBooth.where("atMs", ">=", fromAtMs).where("atMs", "<", toAtMs).execute();
      const named = await ofBooth
        .where("kind", "=", "authority")
        .where("atMs", "<", fromAtMs)
        .orderBy("atMs", "desc")
        .limit(1)
        .execute();
      const takings = await ofBooth
        .where("kind", "=", "takenBack")
        .where((where) => where.or([where("atMs", ">=", toAtMs), where("atMs", "<", fromAtMs)]))
        .execute();
      return [...rows, ...named, ...takings].flatMap(itemOf);
    },

    /** Instants at which anything came from the booth itself, oldest first: the first and last of each minute. */
    async heard(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<number[]> {
      const minutes = async (table: "fact" | "reading") => {
        const minute = sql<number>`("atMs" / 60000)`;
        return db
          .selectFrom(table)
          .select(({ fn }) => [fn.min<number>("atMs").as("first"), fn.max<number>("atMs").as("last")])
          .where("boothId", "=", boothId)
          .where("agentId", "!=", dashboardName)
          .where("atMs", ">=", fromAtMs)
          .where("atMs", "<", toAtMs)
          .groupBy(minute)
          .execute();
      };
      const all = [...(await minutes("fact")), ...(await minutes("reading"))];
      return all.flatMap(({ first, last }) => [first, last]).sort((a, b) => a - b);
    },

    async insideMinutes(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<InsideMinute[]> {
      const minute = sql<number>`("atMs" / 60000)`;
      const rows = await db
        .selectFrom("reading")
        .select(({ fn }) => [
          minute.as("minute"),
          fn.min<number>("insideC").as("minC"),
          fn.avg<number>("insideC").as("meanC"),
          fn.max<number>("insideC").as("maxC"),
        ])
        .where("boothId", "=", boothId)
        .where("atMs", ">=", fromAtMs)
        .where("atMs", "<", toAtMs)
        .where("insideC", "is not", null)
        .groupBy(minute)
        .orderBy(minute)
        .execute();
      return rows.map((row) => ({
        atMs: row.minute * 60_000,
        ...{ minC: row.minC, meanC: Number(row.meanC), maxC: row.maxC },
      }));
    },

    /** Alerts of a booth that were raised within a stretch. */
    async alertsRaised(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<AlertRow[]> {
      return db
        .selectFrom("alert")
        .selectAll()
        .where("boothId", "=", boothId)
        .where("raisedAtMs", ">=", fromAtMs)
        .where("raisedAtMs", "<", toAtMs)
        .execute();
    },

    /** What tells whether anything came in while a report was made. */
    mark: (boothId: string, stretch: Stretch): Promise<string> => markOn(db, boothId, stretch),

    /** Lines of the history that are kept, by booking. */
    async summaries(): Promise<Pick<ReportCacheRow, "bookingId" | "madeOf" | "summary">[]> {
      return db.selectFrom("reportCache").select(["bookingId", "madeOf", "summary"]).execute();
    },

    /** What each report that is kept was made of, by booking. */
    async madeOf(): Promise<Map<string, string>> {
      const rows = await db.selectFrom("reportCache").select(["bookingId", "madeOf"]).execute();
      return new Map(rows.map(({ bookingId, madeOf }) => [bookingId, madeOf]));
    },

    async kept(bookingId: string): Promise<ReportCacheRow | null> {
      const row = await db
        .selectFrom("reportCache")
        .selectAll()
        .where("bookingId", "=", bookingId)
        .executeTakeFirst();
      return row ?? null;
    },

    /** Keeps a report, unless something came in since `mark` was taken, or its booking is gone. */
    async keep({ bookingId, ...columns }: ReportCacheRow, mark: string): Promise<void> {
      await db.transaction().execute(async (trx) => {
        if ((await markOn(trx, columns.boothId, columns)) !== mark) return;
        const booking = trx.selectFrom("booking").select("bookingId").where("bookingId", "=", bookingId);
        if ((await booking.executeTakeFirst()) === undefined) return;
        await trx
          .insertInto("reportCache")
          .values({ bookingId, ...columns })
          .onConflict((conflict) => conflict.column("bookingId").doUpdateSet(columns))
          .execute();
      });
    },

    /** All corrections, or those of one booking, oldest first. */
    async corrections(bookingId: string | null): Promise<ReportCorrectionRow[]> {
      const rows = db.selectFrom("reportCorrection").selectAll().orderBy("atMs").orderBy("correctionId");
      return (bookingId === null ? rows : rows.where("bookingId", "=", bookingId)).execute();
    },

    async correct(row: ReportCorrectionRow): Promise<void> {
      await db.insertInto("reportCorrection").values(row).execute();
    },

    /** Links to a report that hold, oldest first. */
    async links(bookingId: string): Promise<ReportLinkRow[]> {
      return db
        .selectFrom("reportLink")
        .selectAll()
        .where("bookingId", "=", bookingId)
        .where("revokedAtMs", "is", null)
        .orderBy("createdAtMs")
        .orderBy("linkId")
        .execute();
    },

    async addLink(row: ReportLinkRow): Promise<void> {
      await db.insertInto("reportLink").values(row).execute();
    },

    /** A link that holds; null: there is none of that id, or it was revoked. */
    async link(linkId: string): Promise<ReportLinkRow | null> {
      const row = await db
        .selectFrom("reportLink")
        .selectAll()
        .where("linkId", "=", linkId)
        .where("revokedAtMs", "is", null)
        .executeTakeFirst();
      return row ?? null;
    },

    async revokeLink(linkId: string, atMs: number): Promise<void> {
      await db
        .updateTable("reportLink")
        .set({ revokedAtMs: atMs })
        .where("linkId", "=", linkId)
        .where("revokedAtMs", "is", null)
        .execute();
    },
  };
}

async function markOn(
  db: Kysely<Tables> | Transaction<Tables>,
  boothId: string,
  { fromAtMs, toAtMs }: Stretch,
): Promise<string> {
  const of = async (table: "fact" | "reading") =>
    db
      .selectFrom(table)
      .select(({ fn }) => [
        fn.countAll<number | string>().as("items"),
        fn.max<number | string | null>("receivedAtMs").as("lastAtMs"),
      ])
      .where("boothId", "=", boothId)
      .where("atMs", ">=", fromAtMs)
      .where("atMs", "<", toAtMs)
      .executeTakeFirstOrThrow();
  const far = await db
    .selectFrom("fact")
    .select(({ fn }) => fn.countAll<number | string>().as("items"))
    .where("boothId", "=", boothId)
    .where("kind", "in", ["takenBack", "authority"])
    .executeTakeFirstOrThrow();
  const [facts, readings] = [await of("fact"), await of("reading")];
  const parts = [facts.items, facts.lastAtMs, readings.items, readings.lastAtMs, far.items];
  return JSON.stringify(parts);
}
