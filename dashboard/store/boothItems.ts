import { knownItem, type KnownItem, type StoredItem } from "@boothward/shared-types";
import { sql, type Kysely, type Transaction } from "kysely";
import { forgetCheckpoints } from "./checkpoints.ts";
import { forgetReports } from "./forgetReports.ts";
import { factRow } from "./itemRows.ts";
import type { FactRow, ReadingRow, Tables } from "./tables.ts";

/** Kinds of fact that a person states. */
export type PersonKind =
  | "rollFitted"
  | "rollTakenOff"
  | "rollDenied"
  | "correction"
  | "waste"
  | "authority"
  | "readiness"
  | "extended"
  | "testHeard"
  | "check"
  | "takenBack";

/** A fact that a person made at the dashboard, without the stamp that the store gives it. */
export type DashboardFact = DistributiveOmit<
  Extract<KnownItem, { kind: PersonKind }>,
  "seq" | "atMs" | "monoMs" | "source" | "class"
>;
type DistributiveOmit<T, K extends PropertyKey> = T extends unknown ? Omit<T, K> : never;

/** The dashboard's own facts stand under this name where an agent's carry the agent's and the boot's id. */
export const dashboardName = "dashboard";

type Stretch = { readonly fromAtMs: number; readonly toAtMs: number };

/** What names a fact of a booth: the boot it was made in, and its number there. */
export type FactName = { readonly bootId: string; readonly seq: number };

/** What is stored of a booth, to be folded. */
export function boothItems(db: Kysely<Tables>) {
  function rows(table: "fact" | "reading", boothId: string, fromAtMs: number, toAtMs = Infinity) {
    return db
      .selectFrom(table)
      .select(["atMs", "receivedAtMs", "boothId", "bootId", "body"])
      .where("boothId", "=", boothId)
      .where("atMs", ">=", fromAtMs)
      .where("atMs", "<", toAtMs)
      .execute();
  }

  return {
    /**
     * Facts and readings from these instants on, in no order; items of kinds that this version cannot read
     * are left out.
     */
    async since(boothId: string, from: { factsAtMs: number; readingsAtMs: number }): Promise<StoredItem[]> {
      const facts = await rows("fact", boothId, from.factsAtMs);
      const readings = await rows("reading", boothId, from.readingsAtMs);
      return [...facts, ...readings].flatMap(itemOf);
    },

    /** Facts of a stretch of time, from its first instant up to but not including its last, in no order. */
    async factsBetween(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<StoredItem[]> {
      const facts = await rows("fact", boothId, fromAtMs, toAtMs);
      return facts.flatMap(itemOf);
    },

    /** All words that take back another one: what they take back may be of any time before. */
    async takings(boothId: string): Promise<StoredItem[]> {
      const facts = await db
        .selectFrom("fact")
        .select(["atMs", "receivedAtMs", "boothId", "bootId", "body"])
        .where("boothId", "=", boothId)
        .where("kind", "=", "takenBack")
        .execute();
      return facts.flatMap(itemOf);
    },

    /** What tells whether the facts of a stretch are still those of before: how many, and the last to come in. */
    async markBetween(boothId: string, { fromAtMs, toAtMs }: Stretch): Promise<string> {
      const row = await db
        .selectFrom("fact")
        .select(({ fn }) => [
          fn.countAll<number | string>().as("facts"),
          fn.max<number | string | null>("receivedAtMs").as("lastAtMs"),
        ])
        .where("boothId", "=", boothId)
        .where("atMs", ">=", fromAtMs)
        .where("atMs", "<", toAtMs)
        .executeTakeFirstOrThrow();
      return `${row.facts} ${row.lastAtMs ?? ""}`;
    },

    /** The invented day that the booth's agent played at an instant; null: a real evening, or no agent yet. */
    async scenarioAt(boothId: string, atMs: number): Promise<string | null> {
      const row = await db
        .selectFrom("fact")
        .select(["atMs", "receivedAtMs", "boothId", "bootId", "body"])
        .where("boothId", "=", boothId)
        .where("kind", "=", "agentStarted")
        .where("atMs", "<=", atMs)
        .orderBy("atMs", "desc")
        .limit(1)
        .executeTakeFirst();
      const [started] = row === undefined ? [] : itemOf(row);
      return started?.kind === "agentStarted" ? started.scenario : null;
    },

    /**
     * Keeps a fact that a person states at `saidAtMs` of what was at `atMs`, then or before, and gives it as it
     * is folded. Its number in the dashboard's own sequence grows with the saying: facts of one instant stay in
     * the order in which they were said.
     */
    async addAtDashboard(
      boothId: string,
      fact: DashboardFact,
      { atMs, saidAtMs }: { readonly atMs: number; readonly saidAtMs: number },
    ): Promise<StoredItem> {
      return db.transaction().execute((trx) => insertAtDashboard(trx, boothId, fact, { atMs, saidAtMs }));
    },

    /** The kind of one fact of the booth; null: there is none of that name. */
    async kindOf(boothId: string, { bootId, seq }: FactName): Promise<string | null> {
      const row = await db
        .selectFrom("fact")
        .select("kind")
        .where("boothId", "=", boothId)
        .where("bootId", "=", bootId)
        .where("seq", "=", seq)
        .executeTakeFirst();
      return row?.kind ?? null;
    },

    /** True time of the booth's latest item; null: nothing is stored. */
    async lastAtMs(boothId: string): Promise<number | null> {
      const newest = (table: "fact" | "reading") =>
        db
          .selectFrom(table)
          .select("atMs")
          .where("boothId", "=", boothId)
          .orderBy("atMs", "desc")
          .limit(1)
          .executeTakeFirst();
      const [fact, reading] = [await newest("fact"), await newest("reading")];
      if (fact === undefined || reading === undefined) return fact?.atMs ?? reading?.atMs ?? null;
      return Math.max(fact.atMs, reading.atMs);
    },

    async countKeptAside(boothId: string): Promise<number> {
      const row = await db
        .selectFrom("keptAside")
        .select(({ fn }) => fn.countAll<number | string>().as("items"))
        .where("boothId", "=", boothId)
        .executeTakeFirstOrThrow();
      return Number(row.items);
    },
  };
}

/** The same within a transaction that writes more. */
export async function insertAtDashboard(
  trx: Transaction<Tables>,
  boothId: string,
  fact: DashboardFact,
  { atMs, saidAtMs }: { readonly atMs: number; readonly saidAtMs: number },
): Promise<StoredItem> {
  const last = await trx
    .selectFrom("fact")
    .select(sql<number | null>`max("seq")`.as("seq"))
    .where("agentId", "=", dashboardName)
    .executeTakeFirst();
  const seq = (last?.seq ?? 0) + 1;
  const item = { ...fact, class: "fact" as const, seq, atMs, monoMs: 0, source: dashboardName };
  const entry = {
    ...{ agentId: dashboardName, bootId: dashboardName, boothId, receivedAtMs: saidAtMs },
    ...{ item, atMs, read: { as: "known" as const, item } },
  };
  await trx.insertInto("fact").values(factRow(entry)).execute();
  await forgetReports(trx, [entry]);
  await forgetCheckpoints(trx, [entry]);
  return { ...item, boothId, bootId: dashboardName, receivedAtMs: saidAtMs };
}

type Row = Pick<FactRow | ReadingRow, "atMs" | "receivedAtMs" | "boothId" | "bootId" | "body">;

/** An item as it is folded; none where this version cannot read it. */
export function itemOf({ body, ...row }: Row): StoredItem[] {
  const read = knownItem.safeParse(JSON.parse(body));
  return read.success ? [{ ...read.data, ...row }] : [];
}
