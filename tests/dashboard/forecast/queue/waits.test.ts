import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { backlogMs } from "../../../../dashboard/forecast/queue/backlog.ts";
import { loadOf, waitInLineMs } from "../../../../dashboard/forecast/queue/waitInLine.ts";
import { waitsNow, type WaitsFrom } from "../../../../dashboard/forecast/queue/waits.ts";
import { mulberry32 } from "../../../../seeds/dice.ts";

const secondMs = 1_000;
const minuteMs = 60_000;
const hourMs = 3_600_000;

describe("the wait in a line", () => {
  // Source: Pollaczek and Khinchine's formula, published.
  it("is 30 s for 10 an hour and two minutes each, always the same (M/D/1)", () => {
    const server = { perHour: 10, serviceMs: 2 * minuteMs, serviceSpread: 0 };
    expect(waitInLineMs(server)).toBeCloseTo(30 * secondMs, 6);
  });

  // Source: Heizer and Render, Operations Management, from memory.
  it("is a twelfth of an hour for 8 an hour where 12 can be served, always the same (M/D/1)", () => {
    const server = { perHour: 8, serviceMs: hourMs / 12, serviceSpread: 0 };
    expect(waitInLineMs(server)).toBeCloseTo(hourMs / 12, 6);
  });

  // Source: a textbook's worked example of the M/M/1 queue.
  it("is 16 minutes for 12 an hour where 15 can be served, exponential (M/M/1)", () => {
    const server = { perHour: 12, serviceMs: hourMs / 15, serviceSpread: 1 };
    expect(waitInLineMs(server)).toBeCloseTo(16 * minuteMs, 6);
  });

  it("is none when nobody comes, and never without end", () => {
    expect(waitInLineMs({ perHour: 0, serviceMs: minuteMs, serviceSpread: 0 })).toBe(0);
    expect(waitInLineMs({ perHour: 500, serviceMs: minuteMs, serviceSpread: 0 })).toBeLessThan(hourMs);
    expect(loadOf({ perHour: 500, serviceMs: minuteMs, serviceSpread: 0 })).toBe(0.95);
  });
});

describe("what waited during a stop", () => {
  // Source: computed independently: it is worked off after D rho / (1 - rho).
  it.each([
    [10, 0.5, 10],
    [10, 0.8, 40],
    [6, 0.25, 2],
  ])("of %i minutes at a load of %f is gone after %i minutes", (stopMin, load, goneMin) => {
    expect(backlogMs(stopMin * minuteMs, goneMin * minuteMs, load)).toBeCloseTo(0, 6);
    expect(backlogMs(stopMin * minuteMs, (goneMin - 1) * minuteMs, load)).toBeGreaterThan(0);
  });

  it("is nothing where nobody came, and nothing below zero", () => {
    expect(backlogMs(10 * minuteMs, 0, 0)).toBe(0);
    expect(backlogMs(-5, 0, 0.5)).toBe(0);
    expect(backlogMs(minuteMs, hourMs, 0.9)).toBe(0);
  });
});

describe("how long a group waits", () => {
  const from = (over: Partial<WaitsFrom> = {}): WaitsFrom => ({
    ...{ queuedJobs: 0, sheetsPerSession: 2, sessionsPerHour: 30, sessionMs: 80 * secondMs, lastStop: null },
    ...over,
  });

  it("is its own sheets and those of the jobs before it", () => {
    expect(waitsNow(from()).printMs).toBe(24 * secondMs);
    expect(waitsNow(from({ queuedJobs: 3 })).printMs).toBe(96 * secondMs);
    expect(waitsNow(from({ queuedJobs: null })).printMs).toBe(24 * secondMs);
  });

  it("is not known for the booth where nothing shows how long a session takes", () => {
    expect(waitsNow(from({ sessionMs: null })).boothMs).toBeNull();
    expect(waitsNow(from({ sessionMs: 0 })).boothMs).toBeNull();
    expect(waitsNow(from()).boothMs).toBeGreaterThan(60 * secondMs);
  });

  it("is longer for the booth after a stop, until what waited is worked off", () => {
    const stopped = (endedAgoMs: number) =>
      waitsNow(from({ lastStop: { lengthMs: 10 * minuteMs, endedAgoMs } })).boothMs ?? 0;
    expect(stopped(0)).toBeGreaterThan(stopped(minuteMs));
    expect(stopped(hourMs)).toBe(waitsNow(from()).boothMs);
  });

  it("is whole numbers of no less than nothing, longer with more before it", () => {
    const any = fc.record<WaitsFrom>({
      queuedJobs: fc.option(fc.nat(50)),
      sheetsPerSession: fc.double({ min: 0, max: 6, noNaN: true }),
      sessionsPerHour: fc.double({ min: 0, max: 10_000, noNaN: true }),
      sessionMs: fc.option(fc.nat(hourMs)),
      lastStop: fc.option(fc.record({ lengthMs: fc.nat(hourMs), endedAgoMs: fc.nat(hourMs) })),
    });
    fc.assert(
      fc.property(any, (each) => {
        const { printMs, boothMs } = waitsNow(each);
        expect(Number.isInteger(printMs) && printMs > 0).toBe(true);
        expect(boothMs === null || (Number.isInteger(boothMs) && boothMs >= 0)).toBe(true);
        const more = waitsNow({ ...each, queuedJobs: (each.queuedJobs ?? 0) + 1 });
        expect(more.printMs).toBeGreaterThan(printMs);
      }),
    );
  });
});

// Sessions of 60 to 100 s, two sheets of 12 s each: a seeded simulation against the formula of random arrivals.
it("prints of a busy booth hardly wait for each other, and random arrivals would overstate it", () => {
  const dice = mulberry32(20260620);
  let [endMs, freeMs, waitedMs] = [0, 0, 0];
  const sessions = 20_000;
  for (let session = 0; session < sessions; session += 1) {
    endMs += (60 + 40 * dice()) * secondMs;
    const beginMs = Math.max(endMs, freeMs);
    waitedMs += beginMs - endMs;
    freeMs = beginMs + 24 * secondMs;
  }
  const random = waitInLineMs({ perHour: 45, serviceMs: 24 * secondMs, serviceSpread: 0 });
  expect(waitedMs / sessions).toBeLessThan(random / 4);
});
