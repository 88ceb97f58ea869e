import type { StoredItem } from "@boothward/shared-types";
import type { Kysely, Transaction } from "kysely";
import { forgetCheckpoints } from "./checkpoints.ts";
import { forgetReports } from "./forgetReports.ts";
import { factRow, isFact, keptAsideRow, readingRow, type Entry, type ItemToStore } from "./itemRows.ts";
import type { Tables } from "./tables.ts";

export type BatchToStore = {
  readonly agentId: string;
  readonly boothId: string;
  readonly bootId: string;
  readonly afterSeq: number;
  readonly receivedAtMs: number;
  /** In rising order of their sequence numbers. */
  readonly items: readonly ItemToStore[];
};

/** What became of a batch. `newItems`: known items that were not there before, ready to be folded. */
export type BatchOutcome =
  | {
      readonly kind: "stored";
      readonly throughSeq: number;
      readonly newItems: readonly StoredItem[];
      /** Items of it that could not be read, with the field that was wrong. */
      readonly keptAside: readonly { readonly seq: number; readonly kind: string; readonly field: string }[];
    }
  | { readonly kind: "resend"; readonly afterSeq: number };

/** SQLite takes 32,766 values in one statement, PostgreSQL 65,535; a row has at most twelve. */
const rowsAtOnce = 2_000;

/**
 * Stores batches of any agents in one transaction, each exactly once by (agent, boot, sequence number).
 *
 * A batch that does not follow what is stored leaves nothing behind and is answered `resend`; numbers that
 * are stored already are passed over, and so is a session or print whose own id this booth has had before.
 * Outcomes come in the order of the batches. Throws when the transaction fails: then nothing is stored.
 */
export function storeBatches(db: Kysely<Tables>) {
  return (batches: readonly BatchToStore[]): Promise<BatchOutcome[]> =>
    db.transaction().execute(async (trx) => {
      const through = await throughSeqs(trx, batches);
      const accepted = batches.map((batch) => accept(batch, through));
      const items = accepted.flatMap((batch) => batch.items ?? []);
      const fresh = await insertItems(trx, items);
      await forgetReports(trx, items);
      await forgetCheckpoints(trx, items);
      await saveThroughSeqs(trx, batches, through);
      return accepted.map(({ items: ofBatch, throughSeq }): BatchOutcome => {
        if (ofBatch === null) return { kind: "resend", afterSeq: throughSeq };
        const newItems = ofBatch.flatMap((entry) => (fresh.has(keyOf(entry)) ? storedItem(entry) : []));
        const keptAside = ofBatch.flatMap(({ item: { seq, kind }, read }) =>
          read.as === "keptAside" ? [{ seq, kind, field: read.field }] : [],
        );
        return { kind: "stored", throughSeq, newItems, keptAside };
      });
    });
}

const bootKey = ({ agentId, bootId }: { agentId: string; bootId: string }) =>
  JSON.stringify([agentId, bootId]);
const keyOf = (entry: Entry) => `${bootKey(entry)}${entry.item.seq}`;

async function throughSeqs(trx: Transaction<Tables>, batches: readonly BatchToStore[]) {
  const agentIds = [...new Set(batches.map((batch) => batch.agentId))];
  const bootIds = [...new Set(batches.map((batch) => batch.bootId))];
  const rows = await trx
    .selectFrom("boot")
    .select(["agentId", "bootId", "throughSeq"])
    .where("agentId", "in", agentIds)
    .where("bootId", "in", bootIds)
    .execute();
  return new Map(rows.map((row) => [bootKey(row), row.throughSeq]));
}

/** Decides what of the batch is new and moves `through` on; `items` is null where it does not follow. */
function accept(batch: BatchToStore, through: Map<string, number>) {
  const stored = through.get(bootKey(batch)) ?? 0;
  if (batch.afterSeq > stored) return { items: null, throughSeq: stored };
  const { agentId, bootId, boothId, receivedAtMs } = batch;
  const items: Entry[] = batch.items
    .filter(({ item }) => item.seq > stored)
    .map((entry) => ({ ...entry, agentId, bootId, boothId, receivedAtMs }));
  const throughSeq = Math.max(stored, batch.items.at(-1)?.item.seq ?? 0);
  through.set(bootKey(batch), throughSeq);
  return { items, throughSeq };
}

/** Inserts and says which of them were not there before. */
async function insertItems(trx: Transaction<Tables>, entries: readonly Entry[]): Promise<Set<string>> {
  const aside = entries.filter((entry) => entry.read.as === "keptAside");
  const readable = entries.filter((entry) => entry.read.as !== "keptAside");
  const fresh = new Set<string>();
  for (const rows of chunks(readable.filter(isFact).map(factRow))) {
    const added = await trx
      .insertInto("fact")
      .values(rows)
      .onConflict((conflict) => conflict.doNothing())
      .returning(["agentId", "bootId", "seq"])
      .execute();
    for (const row of added) fresh.add(`${bootKey(row)}${row.seq}`);
  }
  const readings = readable.filter((entry) => !isFact(entry));
  for (const rows of chunks(readings.map(readingRow))) await trx.insertInto("reading").values(rows).execute();
  for (const entry of readings) fresh.add(keyOf(entry));
  for (const rows of chunks(aside.map(keptAsideRow)))
    await trx.insertInto("keptAside").values(rows).execute();
  return fresh;
}

async function saveThroughSeqs(
  trx: Transaction<Tables>,
  batches: readonly BatchToStore[],
  through: ReadonlyMap<string, number>,
): Promise<void> {
  const boots = new Map(batches.map((batch) => [bootKey(batch), batch]));
  for (const [key, { agentId, bootId, receivedAtMs }] of boots) {
    const throughSeq = through.get(key);
    if (throughSeq === undefined) continue;
    await trx
      .insertInto("boot")
      .values({
        ...{ agentId, bootId, throughSeq, beganAtMs: receivedAtMs },
        ...{ samples: "[]", wallBehindMs: null, doubtfulAtMs: null },
      })
      .onConflict((conflict) => conflict.columns(["agentId", "bootId"]).doUpdateSet({ throughSeq }))
      .execute();
  }
}

function storedItem({ read, atMs, boothId, bootId, receivedAtMs }: Entry): StoredItem[] {
  return read.as === "known" ? [{ ...read.item, atMs, boothId, bootId, receivedAtMs }] : [];
}

function chunks<T>(rows: readonly T[]): T[][] {
  const parts = Math.ceil(rows.length / rowsAtOnce);
  return Array.from({ length: parts }, (_, part) => rows.slice(part * rowsAtOnce, (part + 1) * rowsAtOnce));
}
