import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import type { Booking } from "@boothward/shared-types";
import Database from "better-sqlite3";
import * as z from "zod";
import { factRow, isFact, readingRow, type Entry } from "../../../dashboard/store/itemRows.ts";
import { openStore } from "../../../dashboard/store/openStore.ts";
import { openSqlite } from "../../../dashboard/store/sqlite.ts";
import type { AgentRow } from "../../../dashboard/store/tables.ts";
import { rowOf, stepRowOf } from "../../../dashboard/storedAlert.ts";
import { anAlert } from "../../support/anAlert.ts";
import { aStockMove, bought } from "../../support/aStockMove.ts";
import { eveningItems } from "./seasonItems.ts";
import { seasonPlan } from "./seasonPlan.ts";

export type SeasonSize = { readonly events: number; readonly booths: number; readonly readings: number };

/** What was put into the folder. */
export type Season = {
  readonly boothIds: readonly string[];
  /** Oldest first; those that lie ahead too. */
  readonly bookings: readonly Booking[];
  readonly facts: number;
  readonly readings: number;
};

const minuteMs = 60_000;
const names = ["Juniper", "Sorrel", "Thistle", "Marigold", "Bracken", "Teasel", "Yarrow", "Comfrey"];

type Row = Readonly<Record<string, unknown>>;

const noted = z.object({ nowMs: z.number(), facts: z.number(), readings: z.number() });

/** The season that is in the folder, or a new one. */
export async function useOrMakeSeason(dataDir: string, size: SeasonSize, nowMs: number): Promise<Season> {
  const note = join(dataDir, "season.json");
  if (!existsSync(note)) {
    const season = await makeSeason(dataDir, size, nowMs);
    const { facts, readings } = season;
    writeFileSync(note, JSON.stringify({ nowMs, facts, readings }));
    return season;
  }
  const { nowMs: madeAtMs, ...added } = noted.parse(JSON.parse(readFileSync(note, "utf8")));
  const boothIds = boothIdsOf(size);
  return { boothIds, bookings: seasonPlan(boothIds, size.events, madeAtMs), ...added };
}

function boothIdsOf({ booths }: SeasonSize): string[] {
  return names.slice(0, booths).map((name) => name.toLowerCase());
}

/** Makes the data folder of a business after a season; items go in past the store, in its rows. */
async function makeSeason(dataDir: string, size: SeasonSize, nowMs: number): Promise<Season> {
  const boothIds = boothIdsOf(size);
  const bookings = seasonPlan(boothIds, size.events, nowMs);
  const held = bookings.filter(({ openAtMs }) => openAtMs <= nowMs);
  const store = await openStore(openSqlite(dataDir));
  for (const [at, boothId] of boothIds.entries()) {
    const name = names[at] ?? boothId;
    await store.booths.add({ boothId, name, isTrailer: at === 0, kitSheets: 400, limitC: 40, box: null }, 0);
  }
  await store.bookings.saveAll(bookings);
  await store.stock.add(movesOf(held));
  await store.close();
  const database = new Database(join(dataDir, "boothward.db"));
  database.pragma("synchronous = OFF");
  try {
    return { boothIds, bookings, ...insertAll(database, held, size.readings, nowMs) };
  } finally {
    database.close();
  }
}

/** Everything of the evenings in one transaction. */
function insertAll(database: Database.Database, held: readonly Booking[], readings: number, nowMs: number) {
  const added = { facts: 0, readings: 0 };
  const insert = inserter(database);
  database.transaction(() => {
    for (const boothId of new Set(held.map((booking) => booking.boothId))) insert("agent", agentRow(boothId));
    for (const booking of held) {
      const entries = entriesOf(booking, Math.round(readings / held.length), nowMs);
      for (const entry of entries)
        if (isFact(entry)) insert("fact", factRow(entry));
        else insert("reading", readingRow(entry));
      const facts = entries.filter(isFact).length;
      added.facts += facts;
      added.readings += entries.length - facts;
      const { agentId = "", bootId = "", receivedAtMs = 0 } = entries[0] ?? {};
      const boot = { agentId, bootId, beganAtMs: receivedAtMs, throughSeq: entries.length };
      insert("boot", { ...boot, samples: "[]", wallBehindMs: null, doubtfulAtMs: null });
      for (const [table, row] of alertRows(booking)) insert(table, row);
    }
  })();
  return added;
}

function agentRow(boothId: string): AgentRow {
  return {
    ...{ agentId: `agent ${boothId}`, boothId, hostName: "tablet", tokenHash: `none of ${boothId}` },
    ...{ pairedAtMs: 0, revokedAtMs: null, heardAtMs: null },
  };
}

function inserter(database: Database.Database): (table: string, row: Row) => void {
  const prepared = new Map<string, Database.Statement>();
  return (table, row) => {
    const known = prepared.get(table);
    const columns = Object.keys(row);
    const statement =
      known ??
      database.prepare(
        `insert into "${table}" (${columns.map((name) => `"${name}"`).join()})
         values (${columns.map((name) => `@${name}`).join()})`,
      );
    prepared.set(table, statement);
    statement.run(row);
  };
}

function entriesOf(booking: Booking, readings: number, nowMs: number): Entry[] {
  const { boothId, bookingId } = booking;
  const whose = { agentId: `agent ${boothId}`, bootId: bookingId, boothId };
  return eveningItems(booking, readings, nowMs).map((item) => ({
    ...{ ...whose, item, atMs: item.atMs, receivedAtMs: item.atMs },
    read: { as: "known", item },
  }));
}

/** Three alerts an evening, each taken and over, with its history. */
function alertRows({ bookingId, boothId, openAtMs }: Booking): (readonly [table: string, row: Row])[] {
  return (["mediaLow", "printerStopped", "tooHot"] as const).flatMap((matter, at) => {
    const sinceAtMs = openAtMs + (30 + at * 40) * minuteMs;
    const takenAtMs = sinceAtMs + 2 * minuteMs;
    const clearedAtMs = sinceAtMs + 6 * minuteMs;
    const alert = anAlert({
      ...{ alertId: `${bookingId} ${matter}`, boothId, matter, severity: "plan", phase: "closed" },
      ...{ sinceAtMs, heldFromAtMs: sinceAtMs, raisedAtMs: sinceAtMs, clearedAtMs, closedAtMs: clearedAtMs },
      taken: { by: "Ama", atMs: takenAtMs },
    });
    const steps = (
      [
        ["raised", sinceAtMs],
        ["taken", takenAtMs],
        ["cleared", clearedAtMs],
      ] as const
    ).map(([step, atMs]) =>
      stepRowOf(
        { alert, step, by: step === "taken" ? "Ama" : null },
        { stepId: `${alert.alertId} ${step}`, atMs },
        null,
      ),
    );
    return [["alert", rowOf(alert)] as const, ...steps.map((row) => ["alertStep", row] as const)];
  });
}

/** Rolls that were bought each month, and two that went with each booth to its event. */
function movesOf(held: readonly Booking[]) {
  const [first] = held;
  const all = held.map(({ bookingId, boothId, openAtMs }) =>
    aStockMove({
      ...{ moveId: `to ${bookingId}`, onceKey: `to ${bookingId}`, atMs: openAtMs, saidAtMs: openAtMs },
      ...{ fromPlace: "store", toPlace: `case:${boothId}`, rolls: 2 },
    }),
  );
  if (first === undefined) return all;
  const atMs = first.openAtMs - 60 * minuteMs;
  return [aStockMove({ ...bought(2 * held.length + 40), moveId: "first", atMs, saidAtMs: atMs }), ...all];
}
