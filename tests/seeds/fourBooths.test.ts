import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { expect, test } from "vitest";
import { type DayBooth, parseDay } from "../../seeds/day.ts";
import { itemsOf } from "../../seeds/scenarioLine.ts";
import { nowOffsetMs, simulate } from "../../seeds/simulate.ts";

const file = resolve(import.meta.dirname, "../../seeds/days/fourBooths.json");
const day = parseDay(JSON.parse(readFileSync(file, "utf8")), file);
const seeds = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

function boothOf(name: string): DayBooth {
  const booth = day.booths.find((one) => one.name === name);
  if (booth === undefined) throw new Error(`no booth ${name}`);
  return booth;
}

/** Lines of a booth in the first ten minutes of watching. */
function firstTenMinutes(name: string, seed: number) {
  const fromMs = nowOffsetMs(day);
  return simulate(boothOf(name), day, seed).flatMap((line) =>
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

/** Pitches that a booth uses before now, and after it. */
function usedOf(name: string, seed: number, over: Partial<DayBooth> = {}) {
  const items = itemsOf(simulate({ ...boothOf(name), ...over }, day, seed));
  const sum = (isCounted: (atMs: number) => boolean) =>
    items
      .filter(({ atMs }) => isCounted(atMs))
      .reduce((pitches, { item }) => pitches + (item.kind === "print" ? item.pitches : 0), 0);
  const nowMs = nowOffsetMs(day);
  return { before: sum((atMs) => atMs < nowMs), after: sum((atMs) => atMs >= nowMs) };
}

test.each(seeds)("Thistle's and Marigold's paper will not last as it goes now (seed %i)", (seed) => {
  for (const name of ["Thistle", "Marigold"]) {
    const { before, after } = usedOf(name, seed, { incidents: [] });
    const leftNow = boothOf(name).booking.sheetsLoaded - before;
    expect(leftNow).toBeGreaterThan(15);
    expect(after).toBeGreaterThan(leftNow);
  }
});

test.each(seeds)(
  "Juniper's roll was changed in the last hour or so, and nobody said it (seed %i)",
  (seed) => {
    const nowMs = nowOffsetMs(day);
    const items = itemsOf(simulate(boothOf("Juniper"), day, seed));
    expect(items.map(({ item }) => item.kind)).not.toContain("rollFitted");
    expect(items.map(({ item }) => item.kind)).not.toContain("media");
    const states = items.flatMap(({ atMs, item }) => (item.kind === "printerState" ? [{ atMs, item }] : []));
    const empty = states.findIndex(({ item }) => item.reasons.includes("media-empty-error"));
    const minutesAgo = (nowMs - (states[empty]?.atMs ?? nowMs)) / 60_000;
    expect(minutesAgo).toBeGreaterThan(5);
    expect(minutesAgo).toBeLessThan(80);
    expect(states[empty + 1]?.item.reasons).toEqual([]);
    expect(usedOf("Juniper", seed).after).toBeLessThan(250);
  },
);

test.each(seeds)("Sorrel would need more than its roll and its spare (seed %i)", (seed) => {
  const { kitSheets, booking } = boothOf("Sorrel");
  const manySpares = { ...boothOf("Sorrel"), booking: { ...booking, spareRolls: 9 } };
  const items = itemsOf(simulate(manySpares, day, seed));
  const fittedAtMs = items.find(({ item }) => item.kind === "rollFitted")?.atMs ?? Infinity;
  expect(fittedAtMs).toBeLessThan(nowOffsetMs(day));
  const sinceFitted = items.reduce(
    (pitches, { atMs, item }) => pitches + (item.kind === "print" && atMs >= fittedAtMs ? item.pitches : 0),
    0,
  );
  // The one that is on and the one that is left.
  expect(booking.spareRolls).toBe(2);
  expect(sinceFitted).toBeGreaterThan(2 * kitSheets);
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
