import {
  deliveryState,
  noticeEnd,
  reachWay,
  type DeliveryState,
  type NoticeEnd,
  type Severity,
  type ToldLine,
} from "@boothward/shared-types";
import type { Kysely } from "kysely";
import {
  addNotices,
  endSettled,
  noticeOf,
  standingOf,
  type AlertStanding,
  type NewNotice,
  type Notice,
} from "./noticeRows.ts";
import { personOf, type Person, type Reach } from "./reaches.ts";
import type { DeliveryRow, Tables } from "./tables.ts";

export type { AlertStanding, NewNotice, Notice };

/** A notice with what became of its alert. */
export type DueNotice = Notice & { readonly alert: AlertStanding | null };

export type NewDelivery = Pick<
  DeliveryRow,
  "deliveryId" | "noticeId" | "reachId" | "nextTryAtMs" | "arrivalHash"
> & { readonly state: "waiting" | "gathered" };

/** A delivery that waits to be tried, as far as it takes to choose which to begin with. */
export type Waiting = {
  readonly deliveryId: string;
  readonly reachId: string;
  readonly personId: string;
  /** The last try on this way failed. */
  readonly isTroubled: boolean;
};

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
    async delivery(deliveryId: string, atMs: number): Promise<DueDelivery | null> {
      const row = await fullDeliveries(db).where("delivery.deliveryId", "=", deliveryId).executeTakeFirst();
      return row === undefined ? null : dueOf(row, atMs);
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

/** What arrived, on whose device. */
export type ArrivedDelivery = Pick<DueDelivery, "notice" | "reach"> & {
  /** Not said before. */
  readonly isFirst: boolean;
};

async function addDeliveries(trx: Kysely<Tables>, deliveries: readonly NewDelivery[]): Promise<void> {
  const fresh = { tries: 0, lastSaid: null, takenAtMs: null, arrivedAtMs: null };
  for (const delivery of deliveries)
    await trx
      .insertInto("delivery")
      .values({ ...delivery, ...fresh })
      .onConflict((conflict) => conflict.columns(["noticeId", "reachId"]).doNothing())
      .execute();
}

async function settle(
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

function fullDeliveries(db: Kysely<Tables>) {
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

function dueOf(row: FullRow, atMs: number): DueDelivery {
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

function toldRows(db: Kysely<Tables>) {
  return db
    .selectFrom("notice")
    .leftJoin("delivery", "delivery.noticeId", "notice.noticeId")
    .leftJoin("reach", "reach.reachId", "delivery.reachId")
    .selectAll("notice")
    .select(["delivery.deliveryId", "delivery.state", "delivery.lastSaid"])
    .select(["delivery.takenAtMs", "delivery.arrivedAtMs", "reach.way", "reach.label"])
    .orderBy("notice.createdAtMs")
    .orderBy("notice.noticeId")
    .orderBy("reach.createdAtMs");
}
type ToldRow = Awaited<ReturnType<ReturnType<typeof toldRows>["execute"]>>[number];

function toldOf(row: ToldRow): ToldLine {
  const { noticeId, alertId, why, toRole, severity, text, ended, spreadAtMs, createdAtMs } = noticeOf(row);
  const { deliveryId, lastSaid, label, takenAtMs, arrivedAtMs } = row;
  return {
    ...{
      noticeId,
      alertId,
      why,
      toRole,
      severity,
      text,
      deliveryId,
      lastSaid,
      label,
      takenAtMs,
      arrivedAtMs,
    },
    atMs: spreadAtMs ?? createdAtMs,
    way: row.way === null ? null : reachWay.parse(row.way),
    state:
      row.state !== null ? deliveryState.parse(row.state) : ended === null ? "due" : noticeEnd.parse(ended),
  };
}
