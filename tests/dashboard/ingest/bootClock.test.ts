import type { ClockSample } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bestOffsetMs, offsetOf, unknownClock, withSample } from "../../../dashboard/ingest/bootClock.ts";
import { correctedAtMs } from "../../../dashboard/ingest/correctedAtMs.ts";

const trueMs = Date.UTC(2026, 5, 20, 18);
const hourMs = 3_600_000;

/** A sample of an agent whose steady clock began at `trueMs` and whose wall clock is off by `wallOffMs`. */
function aSample(over: { atMono?: number; thereMs?: number; backMs?: number; wallOffMs?: number } = {}) {
  const { atMono = 1_000, thereMs = 20, backMs = 20, wallOffMs = 0 } = over;
  const t4MonoMs = atMono + thereMs + backMs;
  return {
    t1MonoMs: atMono,
    t2Ms: trueMs + atMono + thereMs,
    t3Ms: trueMs + atMono + thereMs,
    t4MonoMs,
    t4WallMs: trueMs + t4MonoMs + wallOffMs,
  };
}

const clockOf = (...samples: ClockSample[]) => samples.reduce(withSample, unknownClock("boot-1"));

describe("the offset of a boot's clock", () => {
  // Source: RFC 5905 section 8, theta and delta; the two cases as computed from its formulas.
  it.each([
    [{ t1MonoMs: 0, t2Ms: 50, t3Ms: 50, t4MonoMs: 100 }, 0, 100],
    [{ t1MonoMs: 1_000, t2Ms: 4_060, t3Ms: 4_065, t4MonoMs: 1_125 }, 3_000, 120],
  ])("[T1] of the timestamps %j is %d ms with a round trip of %d ms", (times, offsetMs, delayMs) => {
    expect(offsetOf({ ...times, t4WallMs: 0 })).toEqual({ offsetMs, delayMs });
  });

  it("[T3] is that of the sample with the smallest round trip among the last eight", () => {
    const quick = aSample({ thereMs: 1, backMs: 1 });
    const skewed = aSample({ thereMs: 400, backMs: 2 });
    expect(bestOffsetMs(clockOf(skewed, quick, skewed).samples)).toBe(trueMs);
    const eight = Array.from({ length: 8 }, () => skewed);
    expect(bestOffsetMs(clockOf(quick, ...eight.slice(1)).samples)).toBe(trueMs);
    expect(bestOffsetMs(clockOf(quick, ...eight).samples)).toBe(trueMs + 199);
  });

  it("passes over a sample with a negative round trip", () => {
    const impossible = { ...aSample(), t3Ms: trueMs + 90_000 };
    expect(clockOf(impossible)).toEqual(unknownClock("boot-1"));
  });

  it("says how far the wall clock is behind", () => {
    expect(clockOf(aSample({ wallOffMs: -2 * hourMs })).wallBehindMs).toBe(2 * hourMs);
    expect(clockOf(aSample({ wallOffMs: 5_000 })).wallBehindMs).toBe(-5_000);
  });

  it("lies within half a round trip of the truth, however the way is shared", () => {
    const ways = fc.record({ thereMs: fc.nat(5_000), backMs: fc.nat(5_000) });
    fc.assert(
      fc.property(ways, (way) => {
        const { offsetMs, delayMs } = offsetOf(aSample(way));
        return Math.abs(offsetMs - trueMs) <= delayMs / 2;
      }),
      { seed: 20 },
    );
  });
});

describe("true time of an item", () => {
  const received = trueMs + hourMs;

  it("[T2] is steady clock plus offset: a wall clock two hours wrong, or stepped, changes nothing", () => {
    const clock = clockOf(aSample({ wallOffMs: -2 * hourMs }));
    for (const wrongByMs of [-2 * hourMs, 0, 37_000])
      expect(
        correctedAtMs({ atMs: trueMs + 60_000 + wrongByMs, monoMs: 60_000 }, clock, null, received),
      ).toEqual({ atMs: trueMs + 60_000, isFromFuture: false });
  });

  it("[T4] of a boot with no sample is its wall clock, corrected by how wrong that is now", () => {
    const stamp = { atMs: trueMs - 2 * hourMs, monoMs: 5 };
    const unknown = unknownClock("boot-0");
    expect(correctedAtMs(stamp, unknown, 2 * hourMs, received).atMs).toBe(trueMs);
    expect(correctedAtMs(stamp, unknown, null, received).atMs).toBe(trueMs - 2 * hourMs);
  });

  it("[T5] is never later than its arrival, and says so past a measuring error", () => {
    const at = (aheadMs: number) =>
      correctedAtMs({ atMs: received + aheadMs, monoMs: 0 }, unknownClock("boot-0"), null, received);
    expect(at(-1)).toEqual({ atMs: received - 1, isFromFuture: false });
    expect(at(1_500)).toEqual({ atMs: received, isFromFuture: false });
    expect(at(hourMs)).toEqual({ atMs: received, isFromFuture: true });
  });

  it("is a whole number of milliseconds", () => {
    const clock = clockOf(aSample({ thereMs: 20, backMs: 21 }));
    expect(Number.isInteger(correctedAtMs({ atMs: 0, monoMs: 7.25 }, clock, null, received).atMs)).toBe(true);
  });
});
