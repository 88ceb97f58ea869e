import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { parseDay } from "../../seeds/day.ts";
import { itemsOf } from "../../seeds/scenarioLine.ts";
import { nowOffsetMs, simulate } from "../../seeds/simulate.ts";

const file = resolve(import.meta.dirname, "../../seeds/days/fourBooths.json");
const day = parseDay(JSON.parse(readFileSync(file, "utf8")), file);
const seeds = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

/** Lines of a booth in the first ten minutes of watching. */
function firstTenMinutes(name: string, seed: number) {
  const booth = day.booths.find((one) => one.name === name);
  if (booth === undefined) throw new Error(`no booth ${name}`);
  const fromMs = nowOffsetMs(day);
  return simulate(booth, day, seed).flatMap((line) =>
    "atMs" in line && line.atMs >= fromMs && line.atMs < fromMs + 600_000 ? [line] : [],
  );
}

test.each(seeds)("the first ten minutes show a jam and its clearing, and a roll change (seed %i)", (seed) => {
  const states = firstTenMinutes("Thistle", seed).flatMap((line) =>
    "item" in line && line.item.kind === "printerState" ? [line.item] : [],
  );
  const jammed = states.findIndex((one) => one.reasons.includes("media-jam-error"));
  expect(states[jammed]?.state).toBe("stopped");
  expect(states[jammed + 1]?.reasons).toEqual([]);
  const kinds = firstTenMinutes("Thistle", seed).map((line) => ("item" in line ? line.item.kind : "hold"));
  expect(kinds).toContain("rollFitted");
});

test.each(seeds)("the first ten minutes show a link cut and its return (seed %i)", (seed) => {
  const [hold] = firstTenMinutes("Marigold", seed).filter((line) => "holdLink" in line);
  const backAtMs = hold !== undefined && "holdLink" in hold ? hold.atMs + hold.holdLink : Infinity;
  expect(backAtMs - nowOffsetMs(day)).toBeLessThan(600_000);
});

test.each(seeds)("only Thistle's paper will not last as it goes now (seed %i)", (seed) => {
  for (const booth of day.booths) {
    const items = itemsOf(simulate({ ...booth, incidents: [] }, day, seed));
    const used = (toMs: number) =>
      items
        .filter((line) => line.atMs < toMs)
        .reduce((sum, { item }) => sum + (item.kind === "print" ? item.pitches : 0), 0);
    const leftNow = booth.booking.sheetsLoaded - used(nowOffsetMs(day));
    expect(leftNow).toBeGreaterThan(15);
    if (booth.name === "Thistle") expect(used(Infinity)).toBeGreaterThan(booth.booking.sheetsLoaded);
    else expect(used(Infinity)).toBeLessThan(booth.booking.sheetsLoaded);
  }
});

test("the trailer is within four degrees of its limit at the start, and the others far from it", () => {
  for (const booth of day.booths) {
    const inside = itemsOf(simulate(booth, day, 1)).flatMap(({ atMs, item }) =>
      item.kind === "inside" && atMs <= nowOffsetMs(day) ? [item.insideC] : [],
    );
    const belowC = booth.limitC - (inside.at(-1) ?? 0);
    expect(belowC).toBeGreaterThan(0);
    expect(belowC < 4).toBe(booth.isTrailer);
  }
});
