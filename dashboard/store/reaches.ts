import { reachWay, type ReachWay, type Role } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import * as z from "zod";
import type { NoticeRow, ReachRow, Tables } from "./tables.ts";

/** Somebody who can be told: an owner's account, or an attendant's pass. */
export type Person = { readonly role: Role; readonly personId: string; readonly name: string };

/** A living way to a person. */
export type Reach = {
  readonly reachId: string;
  readonly way: ReachWay;
  readonly label: string;
  /** Address, keys or template; each way has its own schema for it. */
  readonly body: unknown;
  readonly person: Person;
  readonly createdAtMs: number;
  readonly lastTakenAtMs: number | null;
  readonly troubleFromAtMs: number | null;
  readonly lastSaid: string | null;
};

export type NewReach = {
  readonly reachId: string;
  readonly way: ReachWay;
  readonly label: string;
  readonly body: unknown;
  readonly createdAtMs: number;
};

/** To whom a notice goes. */
export type Addressed = Pick<NoticeRow, "toRole" | "toPersonId" | "bookingId" | "boothId">;

type Whose = Pick<Person, "role" | "personId">;

const idList = z.array(z.string());

/** The ways to reach people. One that ended stays, for the story of who was told. */
export function reaches(db: Kysely<Tables>) {
  return {
    /**
     * Keeps a way; false when the person has too many. One to the same address takes the place of the old one. A
     * browser's push is one device: whoever chooses it last has it alone.
     */
    async add(reach: NewReach, { role, personId }: Whose, most: number): Promise<boolean> {
      return db.transaction().execute(async (trx) => {
        const whose = ownerColumns({ role, personId });
        const body = JSON.stringify(reach.body);
        const living = await trx.selectFrom("reach").selectAll().where("endedAtMs", "is", null).execute();
        const own = living.filter((each) => each[columnOf(role)] === personId);
        const same = (reach.way === "push" ? living : own).filter(
          (each) => each.way === reach.way && each.body === body,
        );
        if (own.filter((each) => !same.includes(each)).length >= most) return false;
        const ended = { endedAtMs: reach.createdAtMs, endedWhy: "replaced" };
        for (const { reachId } of same)
          await trx.updateTable("reach").set(ended).where("reachId", "=", reachId).execute();
        await trx
          .insertInto("reach")
          .values({ ...reach, ...whose, body, ...untried })
          .execute();
        return true;
      });
    },

    /** A person's living ways, in the order they were made. */
    async ofPerson({ role, personId }: Whose): Promise<Reach[]> {
      const rows = await livingRows(db)
        .where(`reach.${columnOf(role)}`, "=", personId)
        .execute();
      return rows.map(reachOf);
    },

    /**
     * The living ways of everybody a notice is for: one person, all owners, or the attendants whose passes hold
     * for its booking (without one, for any booking of its booth).
     */
    async ofAddressed({ toRole, toPersonId, bookingId, boothId }: Addressed, atMs: number): Promise<Reach[]> {
      const rows = await livingRows(db).execute();
      const bookings = await db.selectFrom("booking").select(["bookingId", "boothId"]).execute();
      const boothOf = new Map(bookings.map((booking) => [booking.bookingId, booking.boothId]));
      const holds = (row: LivingRow) =>
        row.revokedAtMs === null &&
        (row.endsAtMs ?? 0) > atMs &&
        (toPersonId !== null || isOfPass(row, { bookingId, boothId }, boothOf));
      return rows
        .filter((row) => (toRole === "owner" ? row.accountId !== null : row.passId !== null && holds(row)))
        .filter((row) => toPersonId === null || (row.accountId ?? row.passId) === toPersonId)
        .map(reachOf);
    },

    /** Ends a way of this person; false when it is none of theirs. */
    async end(reachId: string, { role, personId }: Whose, why: string, atMs: number): Promise<boolean> {
      return db.transaction().execute(async (trx) => {
        const done = await trx
          .updateTable("reach")
          .set({ endedAtMs: atMs, endedWhy: why })
          .where("reachId", "=", reachId)
          .where(columnOf(role), "=", personId)
          .where("endedAtMs", "is", null)
          .executeTakeFirst();
        return done.numUpdatedRows > 0n;
      });
    },
  };
}

const untried = {
  ...{ lastTakenAtMs: null, troubleFromAtMs: null, lastSaid: null },
  ...{ endedAtMs: null, endedWhy: null },
};

function columnOf(role: Role): "accountId" | "passId" {
  return role === "owner" ? "accountId" : "passId";
}

function ownerColumns({ role, personId }: Whose): Pick<ReachRow, "accountId" | "passId"> {
  return role === "owner" ? { accountId: personId, passId: null } : { accountId: null, passId: personId };
}

function livingRows(db: Kysely<Tables>) {
  return db
    .selectFrom("reach")
    .leftJoin("account", "account.accountId", "reach.accountId")
    .leftJoin("pass", "pass.passId", "reach.passId")
    .selectAll("reach")
    .select(["account.name as accountName", "pass.name as passName"])
    .select(["pass.bookingIds", "pass.endsAtMs", "pass.revokedAtMs"])
    .where("reach.endedAtMs", "is", null)
    .orderBy("reach.createdAtMs")
    .orderBy("reach.reachId");
}
type LivingRow = Awaited<ReturnType<ReturnType<typeof livingRows>["execute"]>>[number];

function isOfPass(
  row: LivingRow,
  { bookingId, boothId }: Pick<Addressed, "bookingId" | "boothId">,
  boothOf: ReadonlyMap<string, string>,
): boolean {
  const bookingIds = idList.parse(JSON.parse(row.bookingIds ?? "[]"));
  if (bookingId !== null) return bookingIds.includes(bookingId);
  return boothId !== null && bookingIds.some((each) => boothOf.get(each) === boothId);
}

function reachOf(row: LivingRow): Reach {
  const { reachId, label, createdAtMs, lastTakenAtMs, troubleFromAtMs, lastSaid } = row;
  return {
    ...{ reachId, label, createdAtMs, lastTakenAtMs, troubleFromAtMs, lastSaid },
    way: reachWay.parse(row.way),
    body: JSON.parse(row.body) as unknown,
    person: personOf(row),
  };
}

/** Whose a row is, of a join with the names of account and pass. */
export function personOf(row: {
  readonly accountId: string | null;
  readonly passId: string | null;
  readonly accountName: string | null;
  readonly passName: string | null;
}): Person {
  if (row.accountId !== null) return { role: "owner", personId: row.accountId, name: row.accountName ?? "" };
  return { role: "attendant", personId: row.passId ?? "", name: row.passName ?? "" };
}
