import { describe, expect, it } from "vitest";
import { compareItems } from "../../../dashboard/booth/compareItems.ts";
import { unknownClock } from "../../../dashboard/ingest/bootClock.ts";
import { receiveBatch } from "../../../dashboard/ingest/receiveBatch.ts";
import { sentSession, sentWarmth } from "../../support/aLinkClient.ts";
import { addAgent, aStore } from "../../support/aStore.ts";

const sixAtMs = Date.UTC(2026, 5, 20, 18);
const all = { factsAtMs: -Infinity, readingsAtMs: -Infinity };

describe("items of a booth", () => {
  it("come back as they are folded, with true time, boot and booth", async () => {
    const { store, boothId } = await aStore();
    await addAgent(store, boothId);
    const items = [sentSession(1), sentWarmth(2, 21.5)];
    const frame = { kind: "batch", bootId: "boot-1", afterSeq: 0, items } as const;
    const origin = { agentId: "agent-1", boothId, clock: unknownClock("boot-1") };
    const { batch } = receiveBatch(frame, { ...origin, wallBehindMs: 7_000, receivedAtMs: sixAtMs + 60_000 });
    const [outcome] = await store.storeBatches([batch]);
    const stored = { atMs: sixAtMs + 7_000, receivedAtMs: sixAtMs + 60_000, bootId: "boot-1", boothId };
    const expected = items.map((item) => ({ ...item, ...stored }));
    expect(await store.boothItems.since(boothId, all)).toEqual(expected);
    expect(outcome).toMatchObject({ newItems: expected });
    expect(await store.boothItems.lastAtMs(boothId)).toBe(sixAtMs + 7_000);
  });

  it("of a person at the dashboard have its name and a sequence of their own", async () => {
    const { store, boothId } = await aStore();
    const fitted = { kind: "rollFitted", sheets: 400, by: "Ama" } as const;
    await store.boothItems.addAtDashboard(boothId, fitted, { atMs: sixAtMs, saidAtMs: sixAtMs });
    const correction = { kind: "correction", sheetsLeft: 390, by: "Ama" } as const;
    await store.boothItems.addAtDashboard(boothId, correction, { atMs: sixAtMs + 1, saidAtMs: sixAtMs + 1 });
    expect(await store.boothItems.since(boothId, all)).toMatchObject([
      { source: "dashboard", bootId: "dashboard", seq: 1, atMs: sixAtMs, kind: "rollFitted", sheets: 400 },
      { source: "dashboard", bootId: "dashboard", seq: 2, atMs: sixAtMs + 1, kind: "correction" },
    ]);
  });

  it("said later of an earlier moment keep both times, and those of one moment the order of saying", async () => {
    const { store, boothId } = await aStore();
    const say = (sheetsLeft: number, saidAtMs: number) =>
      store.boothItems.addAtDashboard(
        boothId,
        { kind: "correction", sheetsLeft, by: "Ama" },
        { atMs: sixAtMs, saidAtMs },
      );
    const told = [
      await say(120, sixAtMs + 60_000),
      await say(110, sixAtMs + 90_000),
      await say(100, sixAtMs),
    ];
    expect(told.map(({ atMs, receivedAtMs }) => [atMs, receivedAtMs])).toEqual([
      [sixAtMs, sixAtMs + 60_000],
      [sixAtMs, sixAtMs + 90_000],
      [sixAtMs, sixAtMs],
    ]);
    expect([...told].reverse().sort(compareItems)).toEqual(told);
    expect(await store.boothItems.since(boothId, all)).toEqual(told);
  });

  it("have a kind by their name, in their own booth only", async () => {
    const { store, boothId } = await aStore();
    const { bootId, seq } = await store.boothItems.addAtDashboard(
      boothId,
      { kind: "rollDenied", by: "Ama" },
      { atMs: sixAtMs, saidAtMs: sixAtMs },
    );
    expect(await store.boothItems.kindOf(boothId, { bootId, seq })).toBe("rollDenied");
    expect(await store.boothItems.kindOf(boothId, { bootId, seq: seq + 1 })).toBeNull();
    expect(await store.boothItems.kindOf("sorrel", { bootId, seq })).toBeNull();
  });

  it("are none for a booth that has none", async () => {
    const { store, boothId } = await aStore();
    expect(await store.boothItems.since(boothId, all)).toEqual([]);
    expect(await store.boothItems.lastAtMs(boothId)).toBeNull();
    expect(await store.boothItems.countKeptAside(boothId)).toBe(0);
  });
});
