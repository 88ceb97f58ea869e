import type { Kysely, Migration } from "kysely";

/** What reports keep: those that were counted, what was corrected, and the links that clients were given. */
export const reports: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable("reportCache")
      .addColumn("bookingId", "text", (c) =>
        c.primaryKey().references("booking.bookingId").onDelete("cascade"),
      )
      .addColumn("boothId", "text", (c) => c.notNull())
      .addColumn("fromAtMs", "bigint", (c) => c.notNull())
      .addColumn("toAtMs", "bigint", (c) => c.notNull())
      .addColumn("madeOf", "text", (c) => c.notNull())
      .addColumn("summary", "text", (c) => c.notNull())
      .addColumn("body", "text", (c) => c.notNull())
      .execute();
    await db.schema
      .createIndex("reportCacheByTime")
      .on("reportCache")
      .columns(["boothId", "toAtMs"])
      .execute();
    await db.schema
      .createTable("reportCorrection")
      .addColumn("correctionId", "text", (c) => c.primaryKey())
      .addColumn("bookingId", "text", (c) => c.notNull().references("booking.bookingId").onDelete("cascade"))
      .addColumn("field", "text", (c) => c.notNull())
      .addColumn("was", "double precision")
      .addColumn("is", "double precision", (c) => c.notNull())
      .addColumn("why", "text", (c) => c.notNull())
      .addColumn("by", "text", (c) => c.notNull())
      .addColumn("atMs", "bigint", (c) => c.notNull())
      .execute();
    await db.schema
      .createIndex("reportCorrectionByBooking")
      .on("reportCorrection")
      .columns(["bookingId"])
      .execute();
    await db.schema
      .createTable("reportLink")
      .addColumn("linkId", "text", (c) => c.primaryKey())
      .addColumn("bookingId", "text", (c) => c.notNull().references("booking.bookingId").onDelete("cascade"))
      .addColumn("madeBy", "text", (c) => c.notNull())
      .addColumn("createdAtMs", "bigint", (c) => c.notNull())
      .addColumn("revokedAtMs", "bigint")
      .execute();
    await db.schema.createIndex("reportLinkByBooking").on("reportLink").columns(["bookingId"]).execute();
  },
};
