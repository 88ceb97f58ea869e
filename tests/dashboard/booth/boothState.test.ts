import type { StoredItem } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { countsBetween } from "../../../dashboard/booth/bins.ts";
import { emptyBooth, reduceBooth } from "../../../dashboard/booth/boothState.ts";
import { compareItems } from "../../../dashboard/booth/compareItems.ts";
import { insideNow, hotSince } from "../../../dashboard/booth/insideNow.ts";
import { readingMemoryMs } from "../../../dashboard/booth/readings.ts";
import { isKnownId, rememberId, type RecentIds } from "../../../dashboard/booth/recentIds.ts";
import { stateAfter, stateOf } from "../../support/aBooth.ts";
import { anyItems } from "../../support/anyItems.ts";
import { minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;

describe("counts", () => {
  it("are of what lies between two instants, to the second, the first one included", () => {
    const lines: StoryLine[] = [[0, "session"], ...printsFrom(0, 10, 10, 2), [10, "session"], [10, "print"]];
    const { bins } = stateOf(lines);
    expect(countsBetween(bins, at(0), at(10))).toEqual({ sessions: 1, pitches: 18 });
    expect(countsBetween(bins, at(3.5), at(10.01))).toEqual({ sessions: 1, pitches: 15 });
    // The prints of minutes 1, 2 and 3, and of 3, 4, 5 and 6.
    expect(countsBetween(bins, at(1), at(4))).toEqual({ sessions: 0, pitches: 6 });
    expect(countsBetween(bins, at(3), at(6.5))).toEqual({ sessions: 0, pitches: 8 });
    expect(countsBetween(bins, -Infinity, Infinity)).toEqual({ sessions: 2, pitches: 21 });
  });

  it("add up over any cut of the time", () => {
    const instant = fc.integer({ min: -100, max: 20 * 3600 }).map((second) => sixAtMs + second * 1000);
    fc.assert(
      fc.property(anyItems(50), fc.tuple(instant, instant, instant), (items, cuts) => {
        const { bins } = stateAfter(items);
        const [from, middle, to] = cuts.sort((a, b) => a - b);
        const whole = countsBetween(bins, from, to);
        const parts = [countsBetween(bins, from, middle), countsBetween(bins, middle, to)] as const;
        expect(parts[0].sessions + parts[1].sessions).toBe(whole.sessions);
        expect(parts[0].pitches + parts[1].pitches).toBe(whole.pitches);
      }),
    );
  });

  it("hold a session or print once whose id comes again", () => {
    const lines: StoryLine[] = [
      [1, "session", { sessionId: "s" }],
      [2, "session", { sessionId: "s" }],
      [3, "print", { printId: "p" }],
      [400, "print", { printId: "p" }],
    ];
    expect(countsBetween(stateOf(lines).bins, -Infinity, Infinity)).toEqual({ sessions: 1, pitches: 1 });
  });

  it("reach back a day and a half before the newest", () => {
    const { bins } = stateOf([...printsFrom(0, 60, 12), [36 * 60 + 30, "print"]]);
    expect(bins[0]?.atMs).toBe(at(30));
  });
});

describe("ids", () => {
  it("are known for at least the last 500, the most a print server shows again, and not for ever", () => {
    const ids = Array.from({ length: 1200 }, (_, index) => `p-${index}`);
    const kept = ids.reduce<RecentIds>(rememberId, []);
    expect(ids.slice(-500).every((id) => isKnownId(kept, id))).toBe(true);
    expect(isKnownId(kept, "p-0")).toBe(false);
    expect(kept.flat().length).toBeLessThanOrEqual(1024);
  });
});

describe("what a booth says of itself", () => {
  it("keeps since when it is on battery", () => {
    const lines: StoryLine[] = [
      [0, "power"],
      [5, "power", { isOnMains: false, batteryPct: 90 }],
      [9, "power", { isOnMains: false, batteryPct: 85 }],
    ];
    expect(stateOf(lines).power).toEqual({ isOnMains: false, batteryPct: 85, sinceAtMs: at(5), atMs: at(9) });
  });

  it("keeps since when a source has no value, until it has one or the agent starts anew", () => {
    const lost: StoryLine[] = [
      [1, "sourceState", { source: "ipp", fault: "timeout" }],
      [2, "sourceState", { source: "ipp", fault: "timeout", detail: "again" }],
      [3, "sourceState", { source: "folder", fault: "missing" }],
    ];
    expect(stateOf(lost).faults).toEqual([
      { source: "folder", fault: "missing", detail: null, sinceAtMs: at(3) },
      { source: "ipp", fault: "timeout", detail: "again", sinceAtMs: at(1) },
    ]);
    const found: StoryLine = [4, "sourceState", { source: "ipp", fault: null }];
    expect(stateOf([...lost, found]).faults.map(({ source }) => source)).toEqual(["folder"]);
    expect(stateOf([...lost, [5, "agentStarted"]]).faults).toEqual([]);
  });

  it("knows which invented day it plays", () => {
    expect(stateOf([[0, "agentStarted", { scenario: "a Saturday" }]]).agent?.scenario).toBe("a Saturday");
  });

  it("keeps its state at an item of a kind that is not known", () => {
    const before = stateOf([
      [0, "print"],
      [1, "power"],
    ]);
    const strange = { ...before, kind: "confetti", atMs: at(2) } as unknown as StoredItem;
    expect(reduceBooth(before, strange)).toEqual({ ...before, headAtMs: at(2) });
  });
});

describe("the temperature inside", () => {
  const warming = (fromC: number, per15MinC: number, minutes: number): StoryLine[] =>
    Array.from({ length: minutes * 2 + 1 }, (_, half) => [
      half / 2,
      "inside",
      { insideC: fromC + (per15MinC * half) / 30 },
    ]);

  it("is null before a reading, and without a trend before a quarter of an hour is over", () => {
    expect(insideNow(stateOf([[0, "print"]]))).toBeNull();
    expect(insideNow(stateOf(warming(20, 1, 14)))?.per15MinC).toBeNull();
  });

  it("says how much it changed over the last quarter of an hour", () => {
    const inside = insideNow(stateOf(warming(20, 2, 40)));
    expect(inside?.insideC).toBeCloseTo(20 + (2 * 40) / 15, 6);
    expect(inside?.per15MinC).toBeCloseTo(2, 6);
  });

  it("has no trend over a gap", () => {
    expect(insideNow(stateOf([...warming(20, 2, 5), [40, "inside", { insideC: 30 }]]))?.per15MinC).toBeNull();
  });

  it("is the warmest of the sensors heard lately", () => {
    const lines: StoryLine[] = [
      [0, "inside", { sensor: "old", insideC: 60 }],
      [30, "inside", { sensor: "case", insideC: 31 }],
      [31, "inside", { sensor: "air", insideC: 26 }],
      [31, "outside", { outsideC: 12 }],
    ];
    expect(insideNow(stateOf(lines))).toMatchObject({ sensor: "case", insideC: 31, outsideC: 12 });
  });

  it("knows since when it is too hot, past a short dip, within its hours", () => {
    const lines: StoryLine[] = [
      [0, "inside", { insideC: 39 }],
      [2, "inside", { insideC: 40 }],
      [4, "inside", { insideC: 39.4 }],
      [6, "inside", { insideC: 41 }],
    ];
    expect(hotSince(stateOf(lines), 40, 1)).toEqual({ atMs: at(2), isWholeTrail: false });
    expect(hotSince(stateOf(lines), 40, 0.5)).toEqual({ atMs: at(6), isWholeTrail: false });
    expect(hotSince(stateOf(lines), 42, 1)).toBeNull();
    expect(hotSince(stateOf(warming(45, 0, 300)), 40, 1)).toEqual({ atMs: at(60.5), isWholeTrail: true });
  });
});

describe("old readings", () => {
  it("are let go, so that a state needs facts of all time and readings of the last hours only", () => {
    fc.assert(
      fc.property(anyItems(60), (items) => {
        const whole = stateAfter(items);
        const headAtMs = whole.headAtMs ?? 0;
        const enough = items.filter(
          (item) => item.class === "fact" || item.atMs >= headAtMs - readingMemoryMs,
        );
        expect(stateAfter(enough).readings).toStrictEqual(whole.readings);
      }),
      { numRuns: 300 },
    );
  });

  it("of a sensor that is gone do not stay for ever", () => {
    const { readings } = stateOf([
      [0, "inside"],
      [10, "host"],
      [4 * 60, "print"],
    ]);
    expect(readings).toMatchObject({ inside: [], outside: [], queues: [], host: null, battery: [] });
  });
});

it("is plain JSON, whatever comes", () => {
  fc.assert(
    fc.property(anyItems(40), (items) => {
      const state = stateAfter(items);
      expect(JSON.parse(JSON.stringify(state))).toStrictEqual(state);
    }),
  );
});

it("leaves the state before untouched", () => {
  fc.assert(
    fc.property(anyItems(20), (items) => {
      let state = emptyBooth("juniper");
      for (const item of [...items].sort(compareItems)) {
        const before = JSON.stringify(state);
        const next = reduceBooth(state, item);
        expect(JSON.stringify(state)).toBe(before);
        state = next;
      }
    }),
  );
});
