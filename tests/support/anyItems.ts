import type { StoredItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { aStoredItem, hourMs, minuteMs, sixAtMs } from "./aStoredItem.ts";

/**
 * Items of an evening or two of one booth, each with its own place in the order: two boots, three sources, ids
 * that repeat, times on whole and broken minutes, gaps of many hours.
 */
export function anyItems(most: number): fc.Arbitrary<StoredItem[]> {
  return fc
    .array(fc.tuple(anyBody, anyStamp), { maxLength: most })
    .map((pairs) => uniquely(pairs.map(([body, stamp]) => ({ ...body, ...stamp }))));
}

const atMs = fc.oneof(
  fc.integer({ min: 0, max: 90 }).map((minute) => sixAtMs + minute * minuteMs),
  fc.integer({ min: 0, max: 20 * 3600 }).map((second) => sixAtMs + second * 1000),
  fc.integer({ min: 0, max: 90 }).map((hour) => sixAtMs + hour * hourMs + 500.25),
);

const anyStamp = fc.record({
  atMs,
  seq: fc.integer({ min: 1, max: 40 }),
  source: fc.constantFrom("ipp", "folder", "__proto__"),
  bootId: fc.constantFrom("boot-1", "boot-2"),
});

const queue = fc.constantFrom("dye", "strips");
const reason = fc.constantFrom(
  ...["media-jam-error", "media-empty", "media-low-warning", "cover-open", "none", "strange-thing"],
);
const someC = fc.integer({ min: 150, max: 450 }).map((tenths) => tenths / 10);

const anyBody: fc.Arbitrary<StoredItem> = fc.oneof(
  { arbitrary: fc.integer({ min: 0, max: 25 }).map(anySession), weight: 3 },
  {
    arbitrary: fc.tuple(fc.integer({ min: 0, max: 25 }), fc.integer({ min: 0, max: 8 })).map(anyPrint),
    weight: 5,
  },
  fc
    .record({
      queue,
      state: fc.constantFrom("idle", "processing", "stopped", null),
      reasons: fc.array(reason, { maxLength: 3 }),
    })
    .map((over) => aStoredItem("printerState", over)),
  fc
    .record({
      queue,
      part: fc.constantFrom("Paper", "Dye ribbon"),
      sheetsLeft: fc.option(fc.integer({ min: 0, max: 400 })),
      leftPct: fc.option(fc.integer({ min: 0, max: 100 })),
      ageMs: fc.option(fc.integer({ min: 0, max: 3 * hourMs })),
    })
    .map((over) => aStoredItem("media", over)),
  fc.integer({ min: 1, max: 700 }).map((sheets) => aStoredItem("rollFitted", { sheets })),
  fc.integer({ min: 0, max: 400 }).map((sheetsLeft) => aStoredItem("correction", { sheetsLeft })),
  fc.constantFrom("packed", "open", "packedDown").map((to) => aStoredItem("readiness", { to } as const)),
  fc.boolean().map((isOnMains) => aStoredItem("power", { isOnMains })),
  fc.constantFrom("timeout", "refused", null).map((fault) => aStoredItem("sourceState", { fault } as const)),
  fc.constantFrom("a day", null).map((scenario) => aStoredItem("agentStarted", { scenario })),
  fc.record({ sensor: fc.constantFrom("b", "a"), insideC: someC }).map((over) => aStoredItem("inside", over)),
  someC.map((outsideC) => aStoredItem("outside", { outsideC })),
  fc.record({ queue, queuedJobs: fc.option(fc.nat(9)) }).map((over) => aStoredItem("queue", over)),
  fc.option(fc.nat(100)).map((batteryPct) => aStoredItem("host", { batteryPct })),
  fc.constant(aStoredItem("clockStepped")),
  fc.constant(aStoredItem("extended")),
);

function anySession(id: number): StoredItem {
  return aStoredItem("session", { sessionId: `s-${id}` });
}

function anyPrint([id, quarters]: readonly [number, number]): StoredItem {
  return aStoredItem("print", { printId: `p-${id}`, pitches: quarters / 2 });
}

function uniquely(items: readonly StoredItem[]): StoredItem[] {
  const places = new Map(
    items.map((item) => [`${item.atMs} ${item.source} ${item.seq} ${item.bootId}`, item]),
  );
  return [...places.values()];
}
