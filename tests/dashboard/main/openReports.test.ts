import { pino } from "pino";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { openReports } from "../../../dashboard/openReports.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { aBoothRow } from "../../support/aBoothRow.ts";
import { aReportedEvening } from "../../support/aReportedEvening.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { keepStory } from "../../support/aStoredEvening.ts";
import { handTime } from "../../support/handTime.ts";
import { keepMany, keepReported } from "../../support/keepReported.ts";
import { readStore } from "../../support/readStore.ts";

const dayMs = 24 * hourMs;
const log = pino({ level: "silent" });
const always = { fromAtMs: 0, toAtMs: sixAtMs + 1000 * dayMs };

async function aBusiness() {
  const { store, dataDir, boothId } = await aStore();
  await addAgent(store, boothId);
  return { store, dataDir, boothId };
}

function reportsOn(store: Store, nowMs: number) {
  const time = handTime(nowMs);
  return openReports({ store, clock: time.clock, log });
}

/** A store that counts how often facts are read for a report. */
function watched(store: Store): { store: Store; reads: () => number } {
  let reads = 0;
  const reports: Store["reports"] = {
    ...store.reports,
    facts: (...asked) => {
      reads += 1;
      return store.reports.facts(...asked);
    },
  };
  return { store: { ...store, reports }, reads: () => reads };
}

describe("reports of stored evenings", () => {
  it("say what a count past the store's own rooms says", async () => {
    const { store, dataDir } = await aBusiness();
    for (let week = 1; week <= 6; week++)
      await keepReported(
        store,
        aReportedEvening(week, { bookingId: `week ${week}`, openAtMs: sixAtMs - week * 7 * dayMs }),
      );
    const history = await reportsOn(store, sixAtMs).history(always, sixAtMs);
    // More than are counted at once: the rest comes in the background.
    const reports = reportsOn(store, sixAtMs);
    await reports.history(always, sixAtMs);
    await reports.settled();
    const { rows, waiting, totals } = await reports.history(always, sixAtMs);
    expect(history.waiting).toBe(3);
    expect([rows.length, waiting]).toEqual([6, 0]);
    expect(rows.map(({ bookingId }) => bookingId)).toEqual([1, 2, 3, 4, 5, 6].map((week) => `week ${week}`));
    for (const row of rows) {
      const window = `"atMs" >= ${row.openAtMs} and "atMs" < ${row.closeAtMs + 3 * minuteMs}`;
      const [counted] = readStore(
        dataDir,
        `select sum("kind" = 'session') as sessions, sum(case when "kind" = 'print' then "pitches" else 0 end) as sheets
         from fact where ${window}`,
        z.object({ sessions: z.number(), sheets: z.number() }),
      );
      expect(row.figures).toMatchObject(counted ?? {});
    }
    const sum = rows.reduce((total, row) => total + (row.figures.sessions ?? 0), 0);
    expect(totals).toMatchObject({ events: 6, evenings: 6, sessions: sum });
  });

  it("have each figure of the evening that was made up, through the store", async () => {
    const { store } = await aBusiness();
    const evening = aReportedEvening(11, { openAtMs: sixAtMs });
    await keepReported(store, evening);
    const report = await reportsOn(store, sixAtMs).of("booking-1", sixAtMs + dayMs);
    if (typeof report === "string") throw new Error(report);
    const { sessions, prints, sheets, reprints, digitalOnly } = evening.truth;
    expect(report.client.figures).toEqual({
      ...{ sessions: sessions.length, prints, sheets, reprints, digitalOnly },
    });
    const unknownMs = evening.truth.gaps.reduce((sum, [from, to]) => sum + (to - from), 0);
    expect(report.client.time.unknownMs).toBe(unknownMs);
    expect(report.owner.inside).toMatchObject({ minC: 25, meanC: 25, maxC: 25, aboveLimitMin: 0 });
  });

  it("are read from their facts once, and again when anything of the evening comes in late", async () => {
    const { store, boothId } = await aBusiness();
    await keepReported(store, aReportedEvening(2, { openAtMs: sixAtMs }));
    await keepReported(store, aReportedEvening(3, { bookingId: "later", openAtMs: sixAtMs + 7 * dayMs }));
    const seen = watched(store);
    const nowMs = sixAtMs + 20 * dayMs;
    const reports = reportsOn(seen.store, nowMs);
    const sessions = async () =>
      (await reports.history(always, nowMs)).rows.map(({ figures }) => figures.sessions);
    const [later = 0, first = 0] = await sessions();
    expect(seen.reads()).toBe(2);
    expect(await sessions()).toEqual([later, first]);
    expect(seen.reads()).toBe(2);
    await keepStory(store, boothId, "late boot", sixAtMs, [[100, "session", { sessionId: "late" }]]);
    expect(await sessions()).toEqual([later, (first ?? 0) + 1]);
    expect(seen.reads()).toBe(3);
    // A reading alone may fill a silence.
    await keepStory(store, boothId, "late readings", sixAtMs, [[101, "host", {}]]);
    await sessions();
    expect(seen.reads()).toBe(4);
  });

  it("are read again when the plan, the booth, or an earlier word of a person changes", async () => {
    const { store, boothId } = await aBusiness();
    const evening = aReportedEvening(2, { openAtMs: sixAtMs });
    await keepReported(store, evening);
    const seen = watched(store);
    const nowMs = sixAtMs + 20 * dayMs;
    const reports = reportsOn(seen.store, nowMs);
    const row = async () => (await reports.history(always, nowMs)).rows[0];
    await row();
    await store.bookings.save({ ...evening.booking, client: "Fern and Rowan" });
    expect((await row())?.client).toBe("Fern and Rowan");
    const booth = await store.booths.byId(boothId);
    if (booth !== null) await store.booths.change({ ...booth, name: "Sorrel" });
    expect((await row())?.boothName).toBe("Sorrel");
    expect(seen.reads()).toBe(3);
    const said = { atMs: sixAtMs + hourMs, saidAtMs: nowMs };
    const waste = await store.boothItems.addAtDashboard(
      boothId,
      { kind: "waste", pitches: 5, cause: "spoilt", by: "Ama" },
      said,
    );
    const wasted = (await row())?.wastedSheets ?? 0;
    // Said two weeks later, of that evening.
    const taken = { kind: "takenBack", factBootId: waste.bootId, factSeq: waste.seq, by: "Ama" } as const;
    await store.boothItems.addAtDashboard(boothId, taken, { atMs: nowMs, saidAtMs: nowMs });
    expect((await row())?.wastedSheets).toBe(wasted - 5);
  });

  it("are not kept when a fact comes in while they are counted", async () => {
    const { store, boothId } = await aBusiness();
    await keepReported(store, aReportedEvening(2, { openAtMs: sixAtMs }));
    const nowMs = sixAtMs + dayMs;
    let isFirst = true;
    const meanwhile: Store["reports"] = {
      ...store.reports,
      facts: async (...asked) => {
        const facts = await store.reports.facts(...asked);
        if (isFirst)
          await keepStory(store, boothId, "meanwhile", sixAtMs, [
            [100, "session", { sessionId: "meanwhile" }],
          ]);
        isFirst = false;
        return facts;
      },
    };
    const reports = reportsOn({ ...store, reports: meanwhile }, nowMs);
    const sessions = async () => {
      const report = await reports.of("booking-1", nowMs);
      return typeof report === "string" ? report : report.client.figures.sessions;
    };
    const before = await sessions();
    expect(await store.reports.kept("booking-1")).toBeNull();
    expect(await sessions()).toBe(Number(before) + 1);
    expect(await store.reports.kept("booking-1")).not.toBeNull();
  });

  it("of an evening that goes on are counted each time and are in no history", async () => {
    const { store } = await aBusiness();
    await keepReported(store, aReportedEvening(2, { openAtMs: sixAtMs }));
    const nowMs = sixAtMs + 2 * hourMs;
    const reports = reportsOn(store, nowMs);
    expect(await reports.of("booking-1", nowMs)).toMatchObject({
      client: { isOver: false, throughAtMs: nowMs },
    });
    expect((await reports.history(always, nowMs)).rows).toEqual([]);
    expect(await store.reports.kept("booking-1")).toBeNull();
    expect(await reports.of("booking-1", sixAtMs - hourMs)).toBe("nothingYet");
    expect(await reports.of("nobody's", nowMs)).toBe("noSuchBooking");
  });

  it("count by the source that a person named before the evening", async () => {
    const { store, boothId } = await aBusiness();
    await keepReported(store, aReportedEvening(2, { openAtMs: sixAtMs }));
    const nowMs = sixAtMs + dayMs;
    const reports = reportsOn(store, nowMs);
    const by = async () => {
      const report = await reports.of("booking-1", nowMs);
      return typeof report === "string" ? report : report.owner.counts.sessionsBy;
    };
    expect(await by()).toBe("layouts");
    const named = { kind: "authority", sessionsBy: "jobs", pitchesBy: null, by: "Ama" } as const;
    const atMs = sixAtMs - 10 * dayMs;
    await store.boothItems.addAtDashboard(boothId, named, { atMs, saidAtMs: atMs });
    expect(await by()).toBe("jobs");
  });
});

describe("a season", () => {
  it("of 50 events with four booths each is summed right, every evening of it", async () => {
    const { store, dataDir } = await aBusiness();
    for (const name of ["Sorrel", "Thistle", "Marigold"])
      await store.booths.add(aBoothRow({ boothId: name.toLowerCase(), name }), 0);
    let sessions = 0;
    let sheets = 0;
    for (let event = 0; event < 50; event++) {
      const evenings = ["juniper", "sorrel", "thistle", "marigold"].map((boothId) => {
        const openAtMs = sixAtMs - (event + 1) * dayMs;
        const evening = aReportedEvening(event, {
          ...{ bookingId: `${event} ${boothId}`, boothId, openAtMs, hours: 1 },
        });
        return { ...evening, booking: { ...evening.booking, client: `Client ${event}` } };
      });
      await keepMany(store, evenings);
      sessions += evenings.reduce((sum, { truth }) => sum + truth.sessions.length, 0);
      sheets += evenings.reduce((sum, { truth }) => sum + truth.sheets, 0);
    }
    const reports = reportsOn(store, sixAtMs);
    await reports.history(always, sixAtMs);
    await reports.settled();
    const { rows, totals, waiting } = await reports.history(always, sixAtMs);
    expect([rows.length, waiting]).toEqual([200, 0]);
    expect(totals).toMatchObject({ events: 50, evenings: 200, sessions, sheets });
    const [stored] = readStore(
      dataDir,
      `select count(*) as n from "reportCache"`,
      z.object({ n: z.number() }),
    );
    expect(stored?.n).toBe(200);
    const report = await reports.of("37 thistle", sixAtMs);
    expect(report).toMatchObject({ client: { client: "Client 37", boothName: "Thistle" } });
  });
});
