import { bookingInput, type Booking, type BookingInput, type StoredItem } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import { setImmediate as everythingElse } from "node:timers/promises";
import { isDeepStrictEqual } from "node:util";
import { insertAtDashboard } from "./boothItems.ts";
import { addToPasses } from "./passes.ts";
import { remembered } from "./remembered.ts";
import type { BookingRow, Tables } from "./tables.ts";

/** As many as a file may bring at once, and a few seasons' changes. */
const mostPlans = 60_000;

/** So many are written by one statement, or parsed before everything else goes first. */
const rowsATurn = 200;

/** The plan: which booth is where, when. */
export function bookings(db: Kysely<Tables>) {
  /** Plans by their text: a season of them is read for most pages, and parsed once. */
  const plans = remembered((text) => bookingInput.parse(JSON.parse(text)), mostPlans);

  function bookingOf({ bookingId, plan }: BookingRow): Booking {
    return { ...plans.of(plan), bookingId };
  }

  async function bookingsOf(rows: readonly BookingRow[]): Promise<Booking[]> {
    const bookings: Booking[] = [];
    let fresh = 0;
    for (const row of rows) {
      if (!plans.has(row.plan) && (fresh += 1) % rowsATurn === 0) await everythingElse();
      bookings.push(bookingOf(row));
    }
    return bookings;
  }

  async function isAsRead(trx: Kysely<Tables>, all: readonly Booking[], asRead: readonly Booking[]) {
    const rows = await trx.selectFrom("booking").selectAll().execute();
    const now = new Map(rows.map((row) => [row.bookingId, row]));
    const isWritten = new Set(all.map(({ bookingId }) => bookingId));
    const isSame = (read: Booking, row: BookingRow | undefined) =>
      row !== undefined && (!isWritten.has(read.bookingId) || isDeepStrictEqual(bookingOf(row), read));
    return rows.length === asRead.length && asRead.every((read) => isSame(read, now.get(read.bookingId)));
  }

  return {
    /** All bookings in the order of their opening. */
    async all(): Promise<Booking[]> {
      const rows = await db
        .selectFrom("booking")
        .selectAll()
        .orderBy("openAtMs")
        .orderBy("bookingId")
        .execute();
      return bookingsOf(rows);
    },

    /** How many were over by an instant, by their plan. */
    async countClosed(atMs: number): Promise<number> {
      const row = await db
        .selectFrom("booking")
        .select(({ fn }) => fn.countAll<number>().as("bookings"))
        .where("closeAtMs", "<=", atMs)
        .executeTakeFirstOrThrow();
      return Number(row.bookings);
    },

    async ofBooth(boothId: string): Promise<Booking[]> {
      const rows = await db
        .selectFrom("booking")
        .selectAll()
        .where("boothId", "=", boothId)
        .orderBy("openAtMs")
        .orderBy("bookingId")
        .execute();
      return bookingsOf(rows);
    },

    /** Adds the booking, or changes the one with its id. */
    save: (booking: Booking): Promise<void> => saveOn(db, [booking]),

    /**
     * The same for many: all of them, or none. `asRead` is the whole plan that they were made from: false, and nothing is
     * written, when one was added or taken out since, or one of these changed.
     */
    saveAll(all: readonly Booking[], asRead?: readonly Booking[]): Promise<boolean> {
      return db.transaction().execute(async (trx) => {
        if (asRead !== undefined && !(await isAsRead(trx, all, asRead))) return false;
        for (let at = 0; at < all.length; at += rowsATurn) {
          await saveOn(trx, all.slice(at, at + rowsATurn));
          // Who asks the store waits for the whole; all else, open pages among it, does not.
          await everythingElse();
        }
        return true;
      });
    },

    /** Adds new bookings, all of them or none: gives the first that another booking of its booth is in the way of. */
    addTogether(all: readonly Booking[]): Promise<{ readonly busy: Booking; readonly with: Booking } | null> {
      return db.transaction().execute(async (trx) => {
        for (const [at, booking] of all.entries()) {
          const inStore = await overlappingOn(trx, booking, null);
          const other = inStore === undefined ? overlappingIn(all.slice(0, at), booking) : bookingOf(inStore);
          if (other !== null) return { busy: booking, with: other };
        }
        await saveOn(trx, all);
        return null;
      });
    },

    async byId(bookingId: string): Promise<Booking | null> {
      const row = await db
        .selectFrom("booking")
        .selectAll()
        .where("bookingId", "=", bookingId)
        .executeTakeFirst();
      return row === undefined ? null : bookingOf(row);
    },

    /** A booking of the same booth whose open hours overlap these; two that touch do not. */
    async overlapping(plan: BookingInput, butBookingId: string | null): Promise<Booking | null> {
      const row = await overlappingOn(db, plan, butBookingId);
      return row === undefined ? null : bookingOf(row);
    },

    /**
     * Lets one booking end and another begin for the same event: both are written, or neither where the other booth is
     * at another event then. Passes of the one hold for both; a close that a fact had moved is moved by another.
     */
    swap({ ended, begun, saidAtMs, by, isExtended }: SwapToStore) {
      return db.transaction().execute(async (trx) => {
        const busyWith = await overlappingOn(trx, begun, ended.bookingId);
        if (busyWith !== undefined) return { busyWith: bookingOf(busyWith) };
        await saveOn(trx, [ended, begun]);
        await addToPasses(trx, ended.bookingId, begun.bookingId);
        if (!isExtended) return { facts: [] };
        const { bookingId, closeAtMs } = ended;
        const fact = { kind: "extended", bookingId, closeAtMs, by } as const;
        const times = { atMs: saidAtMs, saidAtMs };
        const facts: StoredItem[] = [await insertAtDashboard(trx, ended.boothId, fact, times)];
        return { facts };
      });
    },

    async remove(bookingId: string): Promise<void> {
      await db.deleteFrom("booking").where("bookingId", "=", bookingId).execute();
    },
  };
}

type SwapToStore = {
  readonly ended: Booking;
  readonly begun: Booking;
  readonly saidAtMs: number;
  readonly by: string;
  readonly isExtended: boolean;
};

async function saveOn(db: Kysely<Tables>, all: readonly Booking[]): Promise<void> {
  if (all.length === 0) return;
  await db
    .insertInto("booking")
    .values(all.map(rowOf))
    .onConflict((conflict) =>
      conflict.column("bookingId").doUpdateSet((set) => ({
        boothId: set.ref("excluded.boothId"),
        openAtMs: set.ref("excluded.openAtMs"),
        closeAtMs: set.ref("excluded.closeAtMs"),
        plan: set.ref("excluded.plan"),
      })),
    )
    .execute();
}

function rowOf({ bookingId, ...plan }: Booking): BookingRow {
  const { boothId, openAtMs, closeAtMs } = plan;
  return { bookingId, boothId, openAtMs, closeAtMs, plan: JSON.stringify(plan) };
}

async function overlappingOn(
  db: Kysely<Tables>,
  plan: BookingInput,
  butBookingId: string | null,
): Promise<BookingRow | undefined> {
  return db
    .selectFrom("booking")
    .selectAll()
    .where("boothId", "=", plan.boothId)
    .where("openAtMs", "<", plan.closeAtMs)
    .where("closeAtMs", ">", plan.openAtMs)
    .where("bookingId", "!=", butBookingId ?? "")
    .limit(1)
    .executeTakeFirst();
}

function overlappingIn(all: readonly Booking[], plan: BookingInput): Booking | null {
  const isOver = ({ boothId, openAtMs, closeAtMs }: Booking) =>
    boothId === plan.boothId && openAtMs < plan.closeAtMs && closeAtMs > plan.openAtMs;
  return all.find(isOver) ?? null;
}
