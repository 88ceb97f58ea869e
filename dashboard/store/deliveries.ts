import type { DeliveryState } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import { dueOf, fullDeliveries, type DueDelivery } from "./deliveryRows.ts";
import { addNotices, endSettled, type NewNotice } from "./noticeRows.ts";
import type { Tables } from "./tables.ts";

/** A delivery that waits to be tried, as far as it takes to choose which to begin with. */
export type Waiting = {
  readonly deliveryId: string;
  readonly reachId: string;
  readonly personId: string;
  /** The last try on this way failed. */
  readonly isTroubled: boolean;
};

/** A delivery after a try. `reach`: what the try says of the way. `own`: what the dashboard says of itself then. */
export type Outcome = {
  readonly deliveryId: string;
  readonly noticeId: string;
  readonly reachId: string;
  readonly state: DeliveryState;
  readonly tries: number;
  readonly nextTryAtMs: number;
  readonly said: string | null;
  readonly reach: "works" | "fails" | "ended" | "untried";
  readonly own: readonly NewNotice[];
};

/** What arrived, on whose device. */
export type ArrivedDelivery = Pick<DueDelivery, "notice" | "reach"> & {
  /** Not said before. */
  readonly isFirst: boolean;
};

/** Notices on their ways: what is to be tried, what came of it, and what arrived. */
export function deliveries(db: Kysely<Tables>) {
  return {
    /** What is to be tried by now, the most pressing first; only as much of it as tells what to begin with. */
    async waiting(atMs: number): Promise<Waiting[]> {
      const rows = await db
        .selectFrom("delivery")
        .innerJoin("notice", "notice.noticeId", "delivery.noticeId")
        .innerJoin("reach", "reach.reachId", "delivery.reachId")
        .select(["delivery.deliveryId", "reach.reachId", "reach.troubleFromAtMs"])
        .select((eb) => eb.fn.coalesce("reach.accountId", "reach.passId").as("personId"))
        .where("delivery.state", "=", "waiting")
        .where("delivery.nextTryAtMs", "<=", atMs)
        .orderBy((eb) => eb.case().when("notice.severity", "=", "actNow").then(0).else(1).end())
        .orderBy("delivery.nextTryAtMs")
        .orderBy("delivery.deliveryId")
        .execute();
      return rows.map(({ deliveryId, reachId, personId, troubleFromAtMs }) => ({
        ...{ deliveryId, reachId, personId: personId ?? "" },
        isTroubled: troubleFromAtMs !== null,
      }));
    },

    /** A delivery with all that is needed to send it; null: there is none of that id. */
    async byId(deliveryId: string, atMs: number): Promise<DueDelivery | null> {
      const row = await fullDeliveries(db).where("delivery.deliveryId", "=", deliveryId).executeTakeFirst();
      return row === undefined ? null : dueOf(row, atMs);
    },

    /** Keeps what came of a try, with what it says of the way. */
    async saveOutcome(outcome: Outcome, atMs: number): Promise<void> {
      const { deliveryId, noticeId, reachId, state, tries, nextTryAtMs, said } = outcome;
      await db.transaction().execute(async (trx) => {
        await trx
          .updateTable("delivery")
          .set({ state, tries, nextTryAtMs, lastSaid: said, takenAtMs: state === "taken" ? atMs : null })
          .where("deliveryId", "=", deliveryId)
          .execute();
        await saveReach(trx, outcome, atMs);
        if (outcome.reach === "ended") await leaveReach(trx, reachId, atMs);
        await endSettled(trx, [noticeId], atMs);
        await addNotices(trx, outcome.own);
      });
    },

    /** A device says that a delivery came; null: there is no such delivery, or its secret is another. */
    async saveArrival(
      deliveryId: string,
      arrivalHash: string,
      atMs: number,
    ): Promise<ArrivedDelivery | null> {
      return db.transaction().execute(async (trx) => {
        const row = await fullDeliveries(trx)
          .where("delivery.deliveryId", "=", deliveryId)
          .where("delivery.arrivalHash", "=", arrivalHash)
          .executeTakeFirst();
        if (row === undefined) return null;
        const isFirst = row.arrivedAtMs === null;
        if (isFirst)
          await trx
            .updateTable("delivery")
            .set({ arrivedAtMs: atMs })
            .where("deliveryId", "=", deliveryId)
            .execute();
        const { notice, reach } = dueOf(row, atMs);
        return { notice, reach, isFirst };
      });
    },
  };
}

async function saveReach(
  trx: Kysely<Tables>,
  { reachId, reach, said }: Outcome,
  atMs: number,
): Promise<void> {
  if (reach === "untried") return;
  const works = { lastTakenAtMs: atMs, troubleFromAtMs: null, lastSaid: null };
  const update = trx.updateTable("reach").where("reachId", "=", reachId);
  if (reach === "works") await update.set(works).execute();
  if (reach === "ended") await update.set({ endedAtMs: atMs, endedWhy: said ?? "gone" }).execute();
  if (reach === "fails")
    await update
      .set((eb) => ({ lastSaid: said, troubleFromAtMs: eb.fn.coalesce("troubleFromAtMs", eb.val(atMs)) }))
      .execute();
}

/** What else waited for a way that has ended has nowhere to go. */
async function leaveReach(trx: Kysely<Tables>, reachId: string, atMs: number): Promise<void> {
  const left = await trx
    .updateTable("delivery")
    .set({ state: "gone" })
    .where("reachId", "=", reachId)
    .where("state", "in", ["waiting", "gathered"])
    .returning("noticeId")
    .execute();
  await endSettled(
    trx,
    left.map(({ noticeId }) => noticeId),
    atMs,
  );
}
