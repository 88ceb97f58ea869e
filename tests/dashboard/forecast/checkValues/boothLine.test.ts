import { describe, expect, it } from "vitest";
import { waitInLineMs } from "../../../../dashboard/forecast/queue/waitInLine.ts";
import { seededDice } from "../../../../seeds/dice.ts";
import { boothLine } from "../../../bench/forecast/boothLine.ts";
import { drawWait } from "../../../bench/forecast/draws.ts";

const hourMs = 3_600_000;
const sessionMs = 75_000;
const quiet = { sessionMs, longestLine: Infinity, stops: [] };
const arrivalsAt = (perHour: number, hours: number, seed: number) => {
  const dice = seededDice(seed, "arrivals");
  const arrivals: number[] = [];
  for (let at = drawWait(dice, hourMs / perHour); at < hours * hourMs; at += drawWait(dice, hourMs / perHour))
    arrivals.push(at);
  return arrivals;
};
const meanOf = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;

describe("the simulated line at a booth", () => {
  // Source: Pollaczek and Khinchine's formula for M/G/1, against a seeded simulation.
  it.each([10, 24, 36])("of %i groups an hour waits as the queue's formula says", (perHour) => {
    const arrivals = arrivalsAt(perHour, 4_000, 7);
    const ends = boothLine(arrivals, quiet, seededDice(7, "sessions"));
    // Lengths are lognormal with a spread of .28: mean and coefficient of variation follow.
    const serviceMs = sessionMs * Math.exp(0.28 ** 2 / 2);
    const serviceSpread = Math.sqrt(Math.exp(0.28 ** 2) - 1);
    const waited = meanOf(ends.map((endMs, at) => endMs - (arrivals[at] ?? 0))) - serviceMs;
    const formula = waitInLineMs({ perHour, serviceMs, serviceSpread });
    expect(Math.abs(waited / formula - 1)).toBeLessThan(0.06);
  });

  it("never ends two sessions at once, nor one within a stop", () => {
    const stop = { fromMs: 2 * hourMs, toMs: 2.5 * hourMs };
    const ends = boothLine(arrivalsAt(60, 5, 3), { ...quiet, stops: [stop] }, seededDice(3, "sessions"));
    expect(ends.length).toBeGreaterThan(150);
    expect(ends.every((endMs, at) => at === 0 || endMs > (ends[at - 1] ?? 0))).toBe(true);
    expect(ends.filter((endMs) => endMs > stop.fromMs && endMs < stop.toMs)).toEqual([]);
  });

  it("sends away who finds the line too long", () => {
    const crowd = arrivalsAt(120, 3, 5);
    const patient = boothLine(crowd, quiet, seededDice(5, "sessions"));
    const wary = boothLine(crowd, { ...quiet, longestLine: 8 }, seededDice(5, "sessions"));
    expect(patient.length).toBe(crowd.length);
    expect(wary.length).toBeLessThan(0.6 * crowd.length);
    expect(wary.at(-1) ?? Infinity).toBeLessThan(3 * hourMs + 9 * 2 * sessionMs);
  });
});
