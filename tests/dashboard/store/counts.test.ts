import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import { unknownClock } from "../../../dashboard/ingest/bootClock.ts";
import { receiveBatch } from "../../../dashboard/ingest/receiveBatch.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { sentSession, sentWarmth } from "../../support/aLinkClient.ts";
import { addAgent, aStore } from "../../support/aStore.ts";

const sixAtMs = Date.UTC(2026, 5, 20, 18);
const minuteMs = 60_000;
const hourMs = 60 * minuteMs;

const aPrint = (pitches: number) => ({ kind: "print", copies: 1, pitches, queue: null });

/** Stores one item a line: minutes after 18:00 UTC, and what differs from a session. */
async function aStoreWith(lines: readonly (readonly [minute: number, over: object])[]) {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  await fill(store, boothId, lines);
  return { store, boothId };
}

async function fill(store: Store, boothId: string, lines: readonly (readonly [number, object])[]) {
  const items = lines.map(([minute, over], at) => {
    const atMs = sixAtMs + minute * minuteMs;
    const plain = "insideC" in over ? sentWarmth(at + 1, 0, { atMs }) : sentSession(at + 1, { atMs });
    return { ...plain, printId: `p-${at}`, ...over };
  });
  const clock = unknownClock("boot-1");
  const origin = {
    agentId: "agent-1",
    boothId,
    clock,
    wallBehindMs: null,
    receivedAtMs: sixAtMs + 90 * hourMs,
  };
  const frame = { kind: "batch", bootId: "boot-1", afterSeq: 0, items } as const;
  await store.storeBatches([receiveBatch(frame, origin).batch]);
}

describe("counts", () => {
  it("are of a window from its first instant up to but not including its last", async () => {
    const { store, boothId } = await aStoreWith([
      ...([-1, 0, 59, 60] as const).map((minute) => [minute, {}] as const),
      ...([-1, 0, 30, 60] as const).map((minute) => [minute, aPrint(2)] as const),
    ]);
    const window = { fromAtMs: sixAtMs, toAtMs: sixAtMs + hourMs };
    expect(await store.counts.ofWindow(boothId, window)).toEqual({ sessions: 2, pitches: 4 });
  });

  it("count media in pitches: 60 sessions of two 4x6, 100 of two strips, 10 of one 6x8 are 240", async () => {
    // Source: 4x6 is 1, a pair of 2x6 strips is 1, 6x8 is 2 pitches: common practice, no source; the sum is ours.
    const { store, boothId } = await aStoreWith([
      ...Array.from({ length: 60 }, () => [1, aPrint(2)] as const),
      ...Array.from({ length: 100 }, () => [2, aPrint(1)] as const),
      ...Array.from({ length: 10 }, () => [3, aPrint(2)] as const),
    ]);
    const window = { fromAtMs: sixAtMs, toAtMs: sixAtMs + hourMs };
    expect((await store.counts.ofWindow(boothId, window)).pitches).toBe(240);
  });

  it("fall into quarter-hours of the venue's clock, quiet ones too", async () => {
    // Kathmandu is 5 h 45 min ahead of UTC (tz database): its quarters are UTC's, its hours are not.
    const { store, boothId } = await aStoreWith([
      [1, {}],
      [14, {}],
      [15, aPrint(1)],
      [50, aPrint(2)],
    ]);
    const window = { fromAtMs: sixAtMs, toAtMs: sixAtMs + hourMs };
    const quarters = await store.counts.byQuarter(boothId, window, "Asia/Kathmandu");
    expect(quarters).toEqual([
      { atMs: sixAtMs, sessions: 2, pitches: 0 },
      { atMs: sixAtMs + 15 * minuteMs, sessions: 0, pitches: 1 },
      { atMs: sixAtMs + 30 * minuteMs, sessions: 0, pitches: 0 },
      { atMs: sixAtMs + 45 * minuteMs, sessions: 0, pitches: 2 },
    ]);
  });

  it("have as many quarters as an evening has on the night the clocks change", async () => {
    const { store, boothId } = await aStoreWith([]);
    // Source: tz database; Berlin from 2026-10-24 20:00 to 03:30 lasts 8 h 30 min, 34 quarters.
    const zone = "Europe/Berlin";
    const fromAtMs = DateTime.fromISO("2026-10-24T20:00", { zone }).toMillis();
    const toAtMs = DateTime.fromISO("2026-10-25T03:30", { zone }).toMillis();
    const quarters = await store.counts.byQuarter(boothId, { fromAtMs, toAtMs }, zone);
    expect(quarters).toHaveLength(34);
    expect(quarters[0]?.atMs).toBe(fromAtMs);
  });

  it("begin the first quarter on the quarter, but count from the window's first instant", async () => {
    const { store, boothId } = await aStoreWith([
      [3, {}],
      [8, {}],
    ]);
    const window = { fromAtMs: sixAtMs + 7 * minuteMs, toAtMs: sixAtMs + 16 * minuteMs };
    expect(await store.counts.byQuarter(boothId, window, "UTC")).toMatchObject([
      { atMs: sixAtMs, sessions: 1 },
      { atMs: sixAtMs + 15 * minuteMs, sessions: 0 },
    ]);
  });

  it("give the mean temperature of each minute that has one", async () => {
    const { store, boothId } = await aStoreWith([
      [0.1, { insideC: 20 }],
      [0.9, { insideC: 22 }],
      [2.5, { insideC: 30 }],
    ]);
    const window = { fromAtMs: sixAtMs, toAtMs: sixAtMs + hourMs };
    expect(await store.counts.insideByMinute(boothId, window)).toEqual([
      { atMs: sixAtMs, insideC: 21 },
      { atMs: sixAtMs + 2 * minuteMs, insideC: 30 },
    ]);
  });
});
