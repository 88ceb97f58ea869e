import { sql, type Kysely, type Migration } from "kysely";

/** What alerts need to reach people: their history, passes for attendants, ways to reach, notices, settings. */
export const alerting: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await makeHistory(db);
    await makePasses(db);
    await makeNotices(db);
    await db.schema
      .createTable("setting")
      .addColumn("name", "text", (c) => c.primaryKey())
      .addColumn("body", "text", (c) => c.notNull())
      .addColumn("changedAtMs", "bigint", (c) => c.notNull())
      .execute();
  },
};

async function makeHistory(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable("alert").addColumn("closedAtMs", "bigint").execute();
  // What was cleared before was closed with it.
  await sql`update "alert" set "closedAtMs" = "clearedAtMs"`.execute(db);
  await db.schema.createIndex("alertLiving").on("alert").columns(["boothId", "closedAtMs"]).execute();
  await db.schema
    .createTable("alertStep")
    .addColumn("stepId", "text", (c) => c.primaryKey())
    .addColumn("alertId", "text", (c) => c.notNull())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("atMs", "bigint", (c) => c.notNull())
    .addColumn("step", "text", (c) => c.notNull())
    .addColumn("state", "text", (c) => c.notNull())
    .addColumn("severity", "text", (c) => c.notNull())
    .addColumn("by", "text")
    .addColumn("device", "text")
    .addColumn("sayId", "text", (c) => c.unique())
    .execute();
  await db.schema.createIndex("alertStepByAlert").on("alertStep").columns(["alertId", "atMs"]).execute();
  await db.schema.createIndex("alertStepByTime").on("alertStep").columns(["boothId", "atMs"]).execute();
}

async function makePasses(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("pass")
    .addColumn("passId", "text", (c) => c.primaryKey())
    .addColumn("tokenHash", "text", (c) => c.notNull().unique())
    .addColumn("name", "text", (c) => c.notNull())
    .addColumn("bookingIds", "text", (c) => c.notNull())
    .addColumn("madeBy", "text", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("endsAtMs", "bigint", (c) => c.notNull())
    .addColumn("revokedAtMs", "bigint")
    .execute();
  await db.schema
    .createTable("passSignIn")
    .addColumn("tokenHash", "text", (c) => c.primaryKey())
    .addColumn("passId", "text", (c) => c.notNull().references("pass.passId").onDelete("cascade"))
    .addColumn("device", "text", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("expiresAtMs", "bigint", (c) => c.notNull())
    .execute();
}

async function makeNotices(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("reach")
    .addColumn("reachId", "text", (c) => c.primaryKey())
    .addColumn("way", "text", (c) => c.notNull())
    .addColumn("accountId", "text", (c) => c.references("account.accountId").onDelete("cascade"))
    .addColumn("passId", "text", (c) => c.references("pass.passId").onDelete("cascade"))
    .addColumn("label", "text", (c) => c.notNull())
    .addColumn("body", "text", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("lastTakenAtMs", "bigint")
    .addColumn("troubleFromAtMs", "bigint")
    .addColumn("lastSaid", "text")
    .addColumn("endedAtMs", "bigint")
    .addColumn("endedWhy", "text")
    .execute();
  await db.schema
    .createTable("notice")
    .addColumn("noticeId", "text", (c) => c.primaryKey())
    .addColumn("onceKey", "text", (c) => c.notNull().unique())
    .addColumn("alertId", "text")
    .addColumn("boothId", "text")
    .addColumn("bookingId", "text")
    .addColumn("why", "text", (c) => c.notNull())
    .addColumn("severity", "text", (c) => c.notNull())
    .addColumn("toRole", "text", (c) => c.notNull())
    .addColumn("toPersonId", "text")
    .addColumn("text", "text", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("dueAtMs", "bigint", (c) => c.notNull())
    .addColumn("spreadAtMs", "bigint")
    .addColumn("endedAtMs", "bigint")
    .addColumn("ended", "text")
    .execute();
  await db.schema.createIndex("noticeDue").on("notice").columns(["endedAtMs", "dueAtMs"]).execute();
  await db.schema.createIndex("noticeByAlert").on("notice").columns(["alertId"]).execute();
  await db.schema
    .createTable("delivery")
    .addColumn("deliveryId", "text", (c) => c.primaryKey())
    .addColumn("noticeId", "text", (c) => c.notNull().references("notice.noticeId").onDelete("cascade"))
    .addColumn("reachId", "text", (c) => c.notNull().references("reach.reachId").onDelete("cascade"))
    .addColumn("state", "text", (c) => c.notNull())
    .addColumn("tries", "integer", (c) => c.notNull())
    .addColumn("nextTryAtMs", "bigint", (c) => c.notNull())
    .addColumn("lastSaid", "text")
    .addColumn("takenAtMs", "bigint")
    .addColumn("arrivalHash", "text", (c) => c.notNull())
    .addColumn("arrivedAtMs", "bigint")
    .addUniqueConstraint("deliveryOnce", ["noticeId", "reachId"])
    .execute();
  await db.schema.createIndex("deliveryDue").on("delivery").columns(["state", "nextTryAtMs"]).execute();
}
