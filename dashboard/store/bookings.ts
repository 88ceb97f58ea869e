import { bookingInput, type Booking, type BookingInput } from "@boothward/shared-types";
import type { Kysely } from "kysely";
import type { BookingRow, Tables } from "./tables.ts";

/** The plan: which booth is where, when. */
export function bookings(db: Kysely<Tables>) {
  return {
    /** All bookings in the order of their opening. */
    async all(): Promise<Booking[]> {
      const rows = await db
        .selectFrom("booking")
        .selectAll()
        .orderBy("openAtMs")
        .orderBy("bookingId")
        .execute();
      return rows.map(bookingOf);
    },

    async ofBooth(boothId: string): Promise<Booking[]> {
      const rows = await db
        .selectFrom("booking")
        .selectAll()
        .where("boothId", "=", boothId)
        .orderBy("openAtMs")
        .orderBy("bookingId")
        .execute();
      return rows.map(bookingOf);
    },

    /** Adds the booking, or changes the one with its id. */
    save: (booking: Booking): Promise<void> => saveOn(db, booking),

    /** The same for many: all of them, or none. */
    async saveAll(all: readonly Booking[]): Promise<void> {
      await db.transaction().execute(async (trx) => {
        for (const booking of all) await saveOn(trx, booking);
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
      const rows = await db
        .selectFrom("booking")
        .selectAll()
        .where("boothId", "=", plan.boothId)
        .where("openAtMs", "<", plan.closeAtMs)
        .where("closeAtMs", ">", plan.openAtMs)
        .where("bookingId", "!=", butBookingId ?? "")
        .limit(1)
        .execute();
      return rows[0] === undefined ? null : bookingOf(rows[0]);
    },

    async remove(bookingId: string): Promise<void> {
      await db.deleteFrom("booking").where("bookingId", "=", bookingId).execute();
    },
  };
}

async function saveOn(db: Kysely<Tables>, { bookingId, ...plan }: Booking): Promise<void> {
  const { boothId, openAtMs, closeAtMs } = plan;
  const columns = { boothId, openAtMs, closeAtMs, plan: JSON.stringify(plan) };
  await db
    .insertInto("booking")
    .values({ bookingId, ...columns })
    .onConflict((conflict) => conflict.column("bookingId").doUpdateSet(columns))
    .execute();
}

function bookingOf({ bookingId, plan }: BookingRow): Booking {
  return { ...bookingInput.parse(JSON.parse(plan)), bookingId };
}
