import type { Kysely, Migration } from "kysely";

/** The first tables: people, booths and agents, items, bookings, alerts. */
export const firstTables: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await makePeople(db);
    await makeBooths(db);
    await makeItems(db);
    await makePlans(db);
  },
};

async function makePeople(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("account")
    .addColumn("accountId", "text", (c) => c.primaryKey())
    .addColumn("name", "text", (c) => c.notNull().unique())
    .addColumn("passwordHash", "text", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("signIn")
    .addColumn("tokenHash", "text", (c) => c.primaryKey())
    .addColumn("accountId", "text", (c) => c.notNull().references("account.accountId").onDelete("cascade"))
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("expiresAtMs", "bigint", (c) => c.notNull())
    .execute();
}

async function makeBooths(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("booth")
    .addColumn("boothId", "text", (c) => c.primaryKey())
    .addColumn("name", "text", (c) => c.notNull().unique())
    .addColumn("isTrailer", "integer", (c) => c.notNull())
    .addColumn("kitSheets", "integer", (c) => c.notNull())
    .addColumn("limitC", "double precision", (c) => c.notNull())
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("oneTime")
    .addColumn("codeHash", "text", (c) => c.primaryKey())
    .addColumn("purpose", "text", (c) => c.notNull())
    .addColumn("accountId", "text", (c) => c.references("account.accountId").onDelete("cascade"))
    .addColumn("boothId", "text", (c) => c.references("booth.boothId").onDelete("cascade"))
    .addColumn("createdAtMs", "bigint", (c) => c.notNull())
    .addColumn("expiresAtMs", "bigint", (c) => c.notNull())
    .addColumn("usedAtMs", "bigint")
    .execute();
  await db.schema
    .createTable("agent")
    .addColumn("agentId", "text", (c) => c.primaryKey())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("hostName", "text", (c) => c.notNull())
    .addColumn("tokenHash", "text", (c) => c.notNull().unique())
    .addColumn("pairedAtMs", "bigint", (c) => c.notNull())
    .addColumn("revokedAtMs", "bigint")
    .addColumn("heardAtMs", "bigint")
    .execute();
  await db.schema
    .createTable("boot")
    .addColumn("agentId", "text", (c) => c.notNull().references("agent.agentId"))
    .addColumn("bootId", "text", (c) => c.notNull())
    .addColumn("beganAtMs", "bigint", (c) => c.notNull())
    .addColumn("throughSeq", "bigint", (c) => c.notNull())
    .addColumn("samples", "text", (c) => c.notNull())
    .addColumn("wallBehindMs", "double precision")
    .addColumn("doubtfulAtMs", "bigint")
    .addPrimaryKeyConstraint("bootKey", ["agentId", "bootId"])
    .execute();
}

function itemTable(db: Kysely<unknown>, name: "fact" | "reading") {
  return db.schema
    .createTable(name)
    .addColumn("agentId", "text", (c) => c.notNull())
    .addColumn("bootId", "text", (c) => c.notNull())
    .addColumn("seq", "bigint", (c) => c.notNull())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("source", "text", (c) => c.notNull())
    .addColumn("kind", "text", (c) => c.notNull())
    .addColumn("atMs", "bigint", (c) => c.notNull())
    .addColumn("receivedAtMs", "bigint", (c) => c.notNull())
    .addColumn("body", "text", (c) => c.notNull())
    .addPrimaryKeyConstraint(`${name}Key`, ["agentId", "bootId", "seq"]);
}

async function makeItems(db: Kysely<unknown>): Promise<void> {
  await itemTable(db, "fact")
    .addColumn("onceKey", "text")
    .addColumn("pitches", "double precision")
    // Nulls are distinct: only sessions and prints are held to one row per id.
    .addUniqueConstraint("factOnce", ["boothId", "onceKey"])
    .execute();
  await itemTable(db, "reading").addColumn("insideC", "double precision").execute();
  await db.schema.createIndex("factByTime").on("fact").columns(["boothId", "atMs"]).execute();
  await db.schema.createIndex("readingByTime").on("reading").columns(["boothId", "atMs"]).execute();
  await db.schema
    .createTable("keptAside")
    .addColumn("agentId", "text", (c) => c.notNull())
    .addColumn("bootId", "text", (c) => c.notNull())
    .addColumn("seq", "bigint", (c) => c.notNull())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("kind", "text", (c) => c.notNull())
    .addColumn("receivedAtMs", "bigint", (c) => c.notNull())
    .addColumn("field", "text", (c) => c.notNull())
    .addColumn("body", "text", (c) => c.notNull())
    .addPrimaryKeyConstraint("keptAsideKey", ["agentId", "bootId", "seq"])
    .execute();
}

async function makePlans(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable("booking")
    .addColumn("bookingId", "text", (c) => c.primaryKey())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("openAtMs", "bigint", (c) => c.notNull())
    .addColumn("closeAtMs", "bigint", (c) => c.notNull())
    .addColumn("plan", "text", (c) => c.notNull())
    .execute();
  await db.schema
    .createTable("alert")
    .addColumn("alertId", "text", (c) => c.primaryKey())
    .addColumn("boothId", "text", (c) => c.notNull().references("booth.boothId"))
    .addColumn("matter", "text", (c) => c.notNull())
    .addColumn("sinceAtMs", "bigint", (c) => c.notNull())
    .addColumn("raisedAtMs", "bigint")
    .addColumn("clearedAtMs", "bigint")
    .addColumn("body", "text", (c) => c.notNull())
    .execute();
  await db.schema.createIndex("alertByBooth").on("alert").columns(["boothId", "clearedAtMs"]).execute();
}
