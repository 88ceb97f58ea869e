import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { NewItem } from "@boothward/shared-types";
import Database from "better-sqlite3";
import { afterEach, beforeEach, expect, test } from "vitest";
import { itemsOf } from "../../seeds/scenarioLine.ts";
import { denseScenario, identityOf } from "./denseScenario.ts";
import { readLedger } from "./ledger.ts";

let folder = "";
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "boothward-ledger-"));
});
afterEach(() => {
  rmSync(folder, { recursive: true });
});

/** A store's file with these items of one booth, facts and readings in their tables. */
function storeHolding(items: readonly NewItem[], source = "scenario"): void {
  const database = new Database(join(folder, "boothward.db"));
  for (const table of ["fact", "reading"])
    database.exec(`create table if not exists ${table} ("boothId" text, body text)`);
  items.forEach((item, i) => {
    const body = JSON.stringify({ ...item, seq: i + 1, atMs: 1, monoMs: 1, source });
    database.prepare(`insert into ${item.class} values ('booth-1', ?)`).run(body);
  });
  database.close();
}

const scenario = denseScenario("Fault 1", 20, 1_000);
const items = itemsOf(scenario.lines).map(({ item }) => item);
const ledger = () => readLedger(folder, "booth-1", scenario.identities);

test("a dense scenario has as many items as its rate says, each with an identity of its own", () => {
  expect(items).toHaveLength(20);
  expect(new Set(scenario.identities).size).toBe(20);
  expect(new Set(items.map(({ kind }) => kind))).toEqual(new Set(["power", "session", "print", "queue"]));
});

test("a store that holds everything once is in order", () => {
  storeHolding(items);
  expect(ledger()).toEqual({ stored: 20, lost: [], doubled: [], foreign: [] });
});

test("what is lost, doubled or foreign is named, facts and readings alike", () => {
  const [power] = items.filter(({ kind }) => kind === "power");
  const [queue] = items.filter(({ kind }) => kind === "queue");
  if (power === undefined || queue === undefined) throw new Error("a dense scenario has both");
  const strange: NewItem = { class: "fact", kind: "power", isOnMains: true, batteryPct: 99 };
  storeHolding([...items.filter((item) => item !== power), queue, strange]);
  expect(ledger()).toEqual({
    stored: 19,
    lost: [identityOf(power)],
    doubled: [identityOf(queue)],
    foreign: ["power 99"],
  });
});

test("items of other sources and other booths are not the scenario's", () => {
  storeHolding(items, "host");
  expect(ledger().stored).toBe(0);
  expect(readLedger(folder, "booth-2", []).foreign).toEqual([]);
});
