import Database from "better-sqlite3";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { openStore } from "../../../dashboard/store/openStore.ts";
import { FolderInUse, openSqlite } from "../../../dashboard/store/sqlite.ts";
import { aStore } from "../../support/aStore.ts";
import { readStore } from "../../support/readStore.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import * as z from "zod";

describe("the store's file", () => {
  it("is one dashboard's at a time, and free again once that is closed", async () => {
    const { store, dataDir } = await aStore();
    expect(() => openSqlite(dataDir)).toThrow(FolderInUse);
    expect(() => openSqlite(dataDir)).toThrow(dataDir);
    await store.close();
    await (await openStore(openSqlite(dataDir))).close();
  });

  it("makes its folder, and finds what it kept", async () => {
    const dataDir = join(scratchFolder(), "not", "there", "yet");
    const { store } = await aStore(dataDir);
    await store.close();
    const again = await aStore(dataDir);
    expect(await again.store.booths.all()).toMatchObject([{ name: "Juniper", isTrailer: false }]);
  });

  it("writes ahead to a log of its own", async () => {
    const { dataDir } = await aStore();
    const row = z.object({ journal_mode: z.string() });
    expect(readStore(dataDir, "pragma journal_mode", row)).toEqual([{ journal_mode: "wal" }]);
  });

  it("refuses a store that a later version has written", async () => {
    const { store, dataDir } = await aStore();
    await store.close();
    const database = new Database(join(dataDir, "boothward.db"));
    database.exec(`insert into kysely_migration (name, timestamp) values ('999Later', 'now')`);
    database.close();
    await expect(openStore(openSqlite(dataDir))).rejects.toThrow("later version");
    expect(() => openSqlite(dataDir).release()).not.toThrow();
  });

  it("names every column that is an instant so", async () => {
    const { dataDir } = await aStore();
    const columns = readStore(
      dataDir,
      `select m.name || '.' || c.name as name, c.type as type from sqlite_master m, pragma_table_info(m.name) c
       where m.type = 'table' and m.name not like 'kysely%'`,
      z.object({ name: z.string(), type: z.string() }),
    );
    const instants = columns.filter(({ name }) => /At(Ms)?$/.test(name));
    expect(instants.length).toBeGreaterThan(10);
    for (const { name, type } of instants) expect([name.slice(-4), type]).toEqual(["AtMs", "bigint"]);
    const bigints = columns.filter(({ type }) => type === "bigint").map(({ name }) => name);
    expect(bigints.filter((name) => !/(AtMs|\.atMs|[sS]eq)$/.test(name))).toEqual([]);
  });
});
