import type { StoredItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareItems } from "../../../dashboard/booth/compareItems.ts";
import {
  emptyTimeline,
  foldItems,
  rebuildTimeline,
  type LoadSince,
  type Timeline,
} from "../../../dashboard/booth/timeline.ts";
import { stateAfter } from "../../support/aBooth.ts";
import { aStoredItem, aStory, hourMs, minuteMs, printsFrom, sixAtMs } from "../../support/aStoredItem.ts";
import { anyItems } from "../../support/anyItems.ts";

/** Items in any order of arrival, cut into batches of any size. */
const anyArrival = anyItems(60).chain((items) =>
  fc.tuple(
    fc.shuffledSubarray(items, { minLength: items.length }),
    fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 60, maxLength: 60 }),
  ),
);

function batchesOf(items: readonly StoredItem[], sizes: readonly number[]): StoredItem[][] {
  const batches: StoredItem[][] = [];
  let from = 0;
  for (const size of sizes) {
    if (from >= items.length) break;
    batches.push(items.slice(from, from + size));
    from += size;
  }
  return batches;
}

/** A store in memory that answers in the reverse of the order in which things came. */
function aStore() {
  const stored: StoredItem[] = [];
  const asked: number[] = [];
  const loadSince: LoadSince = (fromAtMs) => {
    asked.push(fromAtMs);
    return stored.filter((item) => item.atMs >= fromAtMs).reverse();
  };
  return { stored, asked, loadSince };
}

async function arrive(batches: readonly StoredItem[][]): Promise<{ timeline: Timeline; asked: number[] }> {
  const store = aStore();
  let timeline = emptyTimeline("juniper");
  for (const batch of batches) {
    store.stored.push(...batch);
    timeline = await foldItems(timeline, batch, store.loadSince);
  }
  return { timeline, asked: store.asked };
}

describe("live and rebuilt", () => {
  it("give the same state after every batch, whatever the order of arrival", async () => {
    await fc.assert(
      fc.asyncProperty(anyArrival, async ([items, sizes]) => {
        const store = aStore();
        let timeline = emptyTimeline("juniper");
        for (const batch of batchesOf(items, sizes)) {
          store.stored.push(...batch);
          timeline = await foldItems(timeline, batch, store.loadSince);
          expect(timeline.state).toStrictEqual(stateAfter(store.stored));
        }
      }),
      { numRuns: 150 },
    );
  });

  it("give the same state when batches come again and overlap", async () => {
    await fc.assert(
      fc.asyncProperty(anyArrival, async ([items, sizes]) => {
        const batches = batchesOf(items, sizes);
        const { timeline } = await arrive([...batches, ...batches]);
        expect(timeline.state).toStrictEqual(stateAfter(items));
      }),
      { numRuns: 60 },
    );
  });

  it("give the same state from any checkpoint and the items since, through JSON", async () => {
    await fc.assert(
      fc.asyncProperty(anyArrival, fc.nat(), async ([items, sizes], pick) => {
        const { timeline } = await arrive(batchesOf(items, sizes));
        const checkpoint = timeline.checkpoints[pick % Math.max(1, timeline.checkpoints.length)] ?? null;
        const kept = JSON.parse(JSON.stringify(checkpoint)) as typeof checkpoint;
        const since = (fromAtMs: number) => items.filter((item) => item.atMs >= fromAtMs);
        expect((await rebuildTimeline("juniper", since, kept)).state).toStrictEqual(timeline.state);
      }),
      { numRuns: 80 },
    );
  });
});

describe("compareItems", () => {
  it("is a total order: antisymmetric, transitive, and equal only for the same item", () => {
    fc.assert(
      fc.property(anyItems(12), (items) => {
        for (const a of items) {
          for (const b of items) {
            expect(Math.sign(compareItems(a, b)) + Math.sign(compareItems(b, a))).toBe(0);
            expect(compareItems(a, b) === 0).toBe(a === b);
            for (const c of items) {
              if (compareItems(a, b) < 0 && compareItems(b, c) < 0)
                expect(compareItems(a, c)).toBeLessThan(0);
            }
          }
        }
      }),
      { numRuns: 50 },
    );
  });

  it("goes by true time, then source, then sequence number, then boot", () => {
    const first = aStoredItem("print", { source: "a", seq: 2 });
    const order = [
      aStoredItem("print", { atMs: sixAtMs - 1, source: "z", seq: 9 }),
      first,
      { ...first, bootId: "boot-2" },
      aStoredItem("print", { source: "a", seq: 3 }),
      aStoredItem("print", { source: "b", seq: 1 }),
    ];
    expect([...order].reverse().sort(compareItems)).toEqual(order);
  });
});

describe("winding back", () => {
  const evening = aStory(printsFrom(0, 240, 240));

  it("asks the store for nothing while items come in order", async () => {
    const { asked } = await arrive([evening.slice(0, 100), evening.slice(100)]);
    expect(asked).toEqual([]);
  });

  it("asks only from the five-minute bin of a late item on", async () => {
    const late = aStoredItem("print", { atMs: sixAtMs + 123 * minuteMs, printId: "late", bootId: "boot-0" });
    const { timeline, asked } = await arrive([evening, [late]]);
    expect(asked).toEqual([sixAtMs + 120 * minuteMs]);
    expect(timeline.state.media.marks.pitchesEver).toBe(241);
  });

  it("folds everything again for an item older than all checkpoints", async () => {
    const nextDay = aStory([
      [18 * 60, "print"],
      [18.5 * 60, "print"],
    ]).map((item) => ({ ...item, bootId: "boot-2" }));
    const late = aStoredItem("print", { atMs: sixAtMs + 1, printId: "late", bootId: "boot-0" });
    const { timeline, asked } = await arrive([evening, nextDay, [late]]);
    expect(asked).toEqual([-Infinity]);
    // Two of the 242 carry ids that the evening had: p-0 and p-1.
    expect(timeline.state.media.marks.pitchesEver).toBe(241);
  });

  it("keeps no more checkpoints than twelve hours have bins", async () => {
    const long = aStory(printsFrom(0, 30 * 60, 1800));
    const { timeline } = await arrive([long]);
    expect(timeline.checkpoints.length).toBeLessThanOrEqual(12 * 12 + 1);
    const oldest = timeline.checkpoints[0]?.fromAtMs ?? 0;
    expect((timeline.head?.atMs ?? 0) - oldest).toBeLessThanOrEqual(12 * hourMs + 5 * minuteMs);
  });

  it("shares unchanged parts between one state and the next", async () => {
    const before = (await arrive([evening])).timeline.state;
    const { timeline } = await arrive([evening, [aStoredItem("power", { atMs: sixAtMs + 246 * minuteMs })]]);
    expect(timeline.state.bins).toStrictEqual(before.bins);
    const last = timeline.checkpoints.at(-1)?.state;
    expect(timeline.state.bins).toBe(last?.bins);
    expect(timeline.state.sessionIds).toBe(last?.sessionIds);
  });
});
