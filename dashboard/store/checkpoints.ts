import type { Kysely, Transaction } from "kysely";
import type { BoothCheckpointRow, Tables } from "./tables.ts";

/** The state of each booth of a while ago: a memo of its items, which they take out when they come late. */
export function checkpoints(db: Kysely<Tables>) {
  return {
    /** What this build of the program kept of a booth; null: nothing. Another build may fold in another way. */
    async of(boothId: string, build: string): Promise<BoothCheckpointRow | null> {
      const row = await db
        .selectFrom("boothCheckpoint")
        .selectAll()
        .where("boothId", "=", boothId)
        .where("build", "=", build)
        .executeTakeFirst();
      return row ?? null;
    },

    async keep({ boothId, ...columns }: BoothCheckpointRow): Promise<void> {
      await db
        .insertInto("boothCheckpoint")
        .values({ boothId, ...columns })
        .onConflict((conflict) => conflict.column("boothId").doUpdateSet(columns))
        .execute();
    },

    forget: (boothId: string, atMs: number): Promise<void> => forgetOn(db, [boothId], atMs),
  };
}

type Arrived = { readonly boothId: string; readonly atMs: number };

/** Takes out checkpoints that these items, which just came in, are older than, in the transaction that stores them. */
export async function forgetCheckpoints(
  trx: Transaction<Tables>,
  arrived: readonly Arrived[],
): Promise<void> {
  if (arrived.length === 0) return;
  const earliest = arrived.reduce((least, { atMs }) => Math.min(least, atMs), Infinity);
  await forgetOn(trx, [...new Set(arrived.map(({ boothId }) => boothId))], earliest);
}

async function forgetOn(db: Kysely<Tables>, boothIds: readonly string[], atMs: number): Promise<void> {
  await db
    .deleteFrom("boothCheckpoint")
    .where("boothId", "in", boothIds)
    .where("fromAtMs", ">", atMs)
    .execute();
}
