import { deliveryState, reachWay, type DeliveryState } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import { endSettled, noticeOf, standingOf, type AlertStanding, type Notice } from "./noticeRows.ts";
import { personOf, type Reach } from "./reaches.ts";
import type { DeliveryRow, Tables } from "./tables.ts";

/** One notice on one way, with all that is needed to send it. */
export type DueDelivery = {
  readonly deliveryId: string;
  readonly state: DeliveryState;
  readonly tries: number;
  readonly nextTryAtMs: number;
  readonly notice: Notice;
  readonly alert: AlertStanding | null;
  readonly boothName: string | null;
  readonly reach: Pick<Reach, "reachId" | "way" | "label" | "body" | "person" | "troubleFromAtMs">;
  /** The way was taken away, or its person's pass is over. */
  readonly isReachOver: boolean;
};

export type NewDelivery = Pick<
  DeliveryRow,
  "deliveryId" | "noticeId" | "reachId" | "nextTryAtMs" | "arrivalHash"
> & { readonly state: "waiting" | "gathered" };

/** Deliveries joined with all that `dueOf` reads. */
export function fullDeliveries(db: Kysely<Tables>) {
  return db
    .selectFrom("delivery")
    .innerJoin("notice", "notice.noticeId", "delivery.noticeId")
    .innerJoin("reach", "reach.reachId", "delivery.reachId")
    .leftJoin("account", "account.accountId", "reach.accountId")
    .leftJoin("pass", "pass.passId", "reach.passId")
    .leftJoin("alert", "alert.alertId", "notice.alertId")
    .leftJoin("booth", "booth.boothId", "notice.boothId")
    .selectAll("notice")
    .select(["delivery.deliveryId", "delivery.state", "delivery.tries", "delivery.nextTryAtMs"])
    .select(["delivery.arrivedAtMs", "reach.reachId", "reach.way", "reach.label", "reach.body as reachBody"])
    .select(["reach.accountId", "reach.passId", "reach.troubleFromAtMs", "booth.name as boothName"])
    .select(["reach.endedAtMs as reachEndedAtMs", "account.name as accountName", "pass.name as passName"])
    .select(["pass.endsAtMs as passEndsAtMs", "pass.revokedAtMs as passRevokedAtMs"])
    .select(["alert.body as alertBody", "alert.clearedAtMs as alertClearedAtMs"]);
}
type FullRow = Awaited<ReturnType<ReturnType<typeof fullDeliveries>["execute"]>>[number];

export function dueOf(row: FullRow, atMs: number): DueDelivery {
  const { deliveryId, tries, nextTryAtMs, boothName, reachId, label, troubleFromAtMs } = row;
  const isPassOver = row.passId !== null && (row.passRevokedAtMs !== null || (row.passEndsAtMs ?? 0) <= atMs);
  return {
    ...{ deliveryId, tries, nextTryAtMs, boothName },
    state: deliveryState.parse(row.state),
    notice: noticeOf(row),
    alert: standingOf(row),
    reach: {
      ...{ reachId, label, troubleFromAtMs, person: personOf(row) },
      way: reachWay.parse(row.way),
      body: JSON.parse(row.reachBody) as unknown,
    },
    isReachOver: row.reachEndedAtMs !== null || isPassOver,
  };
}

/** Adds deliveries; a notice goes once on each way. */
export async function addDeliveries(trx: Kysely<Tables>, deliveries: readonly NewDelivery[]): Promise<void> {
  const fresh = { tries: 0, lastSaid: null, takenAtMs: null, arrivedAtMs: null };
  for (const delivery of deliveries)
    await trx
      .insertInto("delivery")
      .values({ ...delivery, ...fresh })
      .onConflict((conflict) => conflict.columns(["noticeId", "reachId"]).doNothing())
      .execute();
}

/** Ends deliveries in a state, and the notices that had no others. */
export async function settle(
  trx: Kysely<Tables>,
  deliveryIds: readonly string[],
  state: DeliveryState,
  atMs: number,
): Promise<void> {
  const noticeIds: string[] = [];
  for (const deliveryId of deliveryIds) {
    const done = await trx
      .updateTable("delivery")
      .set({ state })
      .where("deliveryId", "=", deliveryId)
      .returning("noticeId")
      .executeTakeFirst();
    if (done !== undefined) noticeIds.push(done.noticeId);
  }
  await endSettled(trx, noticeIds, atMs);
}
