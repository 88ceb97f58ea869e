import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { knownItem, type NewItem } from "@boothward/shared-types";
import fc from "fast-check";
import { expect, test } from "vitest";
import { readScenario } from "../../agent/sources/scenarioFile.ts";
import { type DayBooth, parseDay } from "../../seeds/day.ts";
import { itemsOf, type ScenarioItem, scenarioText } from "../../seeds/scenarioLine.ts";
import { nowOffsetMs, simulate } from "../../seeds/simulate.ts";
import { aDay, aDayBooth, aDayBooking } from "../support/aDay.ts";

const file = resolve(import.meta.dirname, "../../seeds/days/fourBooths.json");
const day = parseDay(JSON.parse(readFileSync(file, "utf8")), file);
const anySeed = fc.integer({ min: 0, max: 1_000_000 });

type Of<K extends NewItem["kind"]> = { atMs: number; item: Extract<NewItem, { kind: K }> };
const only = <K extends NewItem["kind"]>(items: readonly ScenarioItem[], kind: K): Of<K>[] =>
  items.filter((line): line is Of<K> => line.item.kind === kind);

const played = (booth: DayBooth, seed = 1) => itemsOf(simulate(booth, aDay([booth]), seed));

/** Runs a check over every booth of the day and many seeds. */
function forEveryDay(check: (booth: DayBooth, items: ScenarioItem[]) => void): void {
  fc.assert(
    fc.property(fc.constantFrom(...day.booths), anySeed, (booth, seed) => {
      check(booth, itemsOf(simulate(booth, day, seed)));
    }),
    { numRuns: 60 },
  );
}

/** Stretches in which the printer says that it has stopped. */
function stopsOf(items: readonly ScenarioItem[]): { fromMs: number; toMs: number; reasons: string[] }[] {
  const states = only(items, "printerState");
  return states.flatMap(({ atMs, item }, i) =>
    item.state === "stopped"
      ? [{ fromMs: atMs, toMs: states[i + 1]?.atMs ?? Infinity, reasons: item.reasons }]
      : [],
  );
}

test("the same seed gives the same lines to the byte, another seed others", () => {
  for (const booth of day.booths) {
    expect(JSON.stringify(simulate(booth, day, 5))).toBe(JSON.stringify(simulate(booth, day, 5)));
    expect(JSON.stringify(simulate(booth, day, 5))).not.toBe(JSON.stringify(simulate(booth, day, 6)));
  }
});

test("every item is one that the link's schema knows", () => {
  forEveryDay((_booth, items) => {
    for (const { item } of items)
      knownItem.parse({ ...item, seq: 1, atMs: 0, monoMs: 0, source: "scenario" });
  });
});

test("the agent reads the lines as they were meant", () => {
  for (const booth of day.booths) {
    const lines = simulate(booth, day, 4);
    const read = readScenario("made.jsonl", scenarioText(lines));
    expect(read.name).toBe(day.name);
    const items = read.entries.flatMap((entry) =>
      "item" in entry ? [{ atMs: entry.atMs, item: entry.item }] : [],
    );
    expect(items).toEqual(itemsOf(lines));
    expect(read.entries.filter((entry) => "holdMs" in entry)).toHaveLength(booth.name === "Marigold" ? 1 : 0);
  }
});

test("lines rise in time and lie within the scenario's length", () => {
  const [header, ...lines] = simulate(aDayBooth(), aDay(), 3);
  const lengthMs = header !== undefined && "lengthMs" in header ? header.lengthMs : 0;
  const times = lines.map((line) => ("atMs" in line ? line.atMs : -1));
  expect(times).toEqual(times.toSorted((a, b) => a - b));
  expect(times[0]).toBe(0);
  expect(times.at(-1)).toBeLessThanOrEqual(lengthMs);
});

test("at any moment the meter says what was loaded less what was printed since", () => {
  forEveryDay((booth, items) => {
    let left = booth.booking.sheetsLoaded;
    for (const { item } of items) {
      if (item.kind === "print") left -= item.pitches;
      if (item.kind === "rollFitted") left = item.sheets;
      if (item.kind !== "media") continue;
      if (booth.meter?.kind === "sheets") expect(item.sheetsLeft).toBe(left);
      const share = (100 * left) / booth.kitSheets;
      if (booth.meter?.kind === "percent") {
        expect(item.leftPct).toBeGreaterThanOrEqual(share);
        expect(item.leftPct).toBeLessThan(share + booth.meter.stepPct);
      }
      expect(left).toBeGreaterThanOrEqual(0);
    }
    expect(only(items, "media").length > 0).toBe(booth.meter !== null);
  });
});

test("no paper is printed that is not there, and none while the printer has stopped", () => {
  const short = aDayBooth({ booking: aDayBooking({ sheetsLoaded: 40, spareRolls: 1 }), kitSheets: 60 });
  fc.assert(
    fc.property(fc.constantFrom(short, ...day.booths), anySeed, (booth, seed) => {
      const items = itemsOf(simulate(booth, aDay([booth]), seed));
      for (const { fromMs, toMs } of stopsOf(items))
        expect(only(items, "print").filter(({ atMs }) => atMs > fromMs && atMs <= toMs)).toEqual([]);
      const used = only(items, "print").reduce((sum, { item }) => sum + item.pitches, 0);
      const { sheetsLoaded, spareRolls } = booth.booking;
      expect(used).toBeLessThanOrEqual(sheetsLoaded + spareRolls * booth.kitSheets);
    }),
  );
});

test("an empty printer waits for a spare, and without one its jobs wait to the end", () => {
  const short = aDayBooth({ booking: aDayBooking({ sheetsLoaded: 40, spareRolls: 1 }), kitSheets: 60 });
  const items = played(short);
  expect(only(items, "rollFitted")).toHaveLength(1);
  const last = stopsOf(items).at(-1);
  expect(last?.reasons).toEqual(["media-empty-error"]);
  expect(last?.toMs).toBe(Infinity);
  expect(only(items, "queue").at(-1)?.item.queuedJobs).toBeGreaterThan(5);
});

test("a jam begins while a sheet is fed and lasts as long as the day says", () => {
  const booth = aDayBooth({ incidents: [{ kind: "jam", atMin: -30, forMin: 3 }] });
  fc.assert(
    fc.property(anySeed, (seed) => {
      const items = itemsOf(simulate(booth, aDay([booth]), seed));
      const [jam, ...others] = stopsOf(items);
      expect(others).toEqual([]);
      expect(jam?.reasons).toEqual(["media-jam-error"]);
      // Two edges are rounded to whole milliseconds.
      expect(Math.abs((jam?.toMs ?? 0) - (jam?.fromMs ?? 0) - 180_000)).toBeLessThanOrEqual(1);
      const before = only(items, "printerState").findLast(({ atMs }) => atMs < (jam?.fromMs ?? 0));
      expect(before?.item.state).toBe("processing");
    }),
  );
});

test("sessions leave the booth spaced by a turn and a pose, within the open hours", () => {
  forEveryDay((booth, items) => {
    const sessions = only(items, "session");
    const toMs = (minutes: number) => nowOffsetMs(day) + minutes * 60_000;
    const [shortestS, longestS] = booth.guests.poseS;
    sessions.forEach(({ atMs, item }, i) => {
      expect(atMs).toBeGreaterThan(toMs(booth.booking.openMin));
      expect(atMs).toBeLessThanOrEqual(toMs(booth.booking.closeMin));
      expect(item.durationMs).toBeGreaterThanOrEqual(shortestS * 1000);
      expect(item.durationMs).toBeLessThanOrEqual(longestS * 1000);
      const before = sessions[i - 1];
      if (before !== undefined)
        expect(atMs - before.atMs).toBeGreaterThan((shortestS + booth.guests.turnS) * 1000 - 2);
    });
  });
});

// 8 to 20 s a sheet, and 35 to 60 sessions an hour at most: common practice of the trade, no source.
test("prints follow each other no faster than the printer, sessions no faster than a booth can", () => {
  forEveryDay((booth, items) => {
    const prints = only(items, "print");
    prints.forEach(({ atMs, item }, i) => {
      const before = prints[i - 1];
      if (before !== undefined) expect(atMs - before.atMs).toBeGreaterThan(item.pitches * 8_000 * 0.95);
    });
    const hours = (booth.booking.closeMin - booth.booking.openMin) / 60;
    expect(only(items, "session").length / hours).toBeLessThan(60);
  });
});

test("each session has its print, sent after it and printed in the same order", () => {
  forEveryDay((_booth, items) => {
    const sessions = only(items, "session");
    only(items, "print").forEach(({ atMs }, i) => {
      expect(atMs).toBeGreaterThan(sessions[i]?.atMs ?? Infinity);
    });
  });
});

test("ids are not used twice", () => {
  forEveryDay((_booth, items) => {
    const ids = items.flatMap(({ item }) =>
      item.kind === "print" ? [item.printId] : item.kind === "session" ? [item.sessionId] : [],
    );
    expect(new Set(ids).size).toBe(ids.length);
  });
});

test("guests come as often as the day's curve says, where the booth has room for them", () => {
  // 6 an hour over 240 minutes is 24 arrivals; the mean of 400 evenings has a standard error of 0.245,
  // and few go away or come too late: 23.2 to 24.98 is three below and four above what is expected.
  const booth = aDayBooth({ guests: { perHour: [[0, 6]], poseS: [40, 60], turnS: 20 } });
  const counts = Array.from({ length: 400 }, (_, seed) => only(played(booth, seed), "session").length);
  const mean = counts.reduce((sum, one) => sum + one, 0) / counts.length;
  expect(mean).toBeGreaterThan(23);
  expect(mean).toBeLessThan(24.98);
});

test("the air inside settles at the air outside and the booth's own heat", () => {
  const inside = only(played(aDayBooth()), "inside");
  const lastHour = inside.slice(-60).map(({ item }) => item.insideC);
  const mean = lastHour.reduce((sum, one) => sum + one, 0) / lastHour.length;
  expect(Math.abs(mean - 26)).toBeLessThan(0.1);
});

test("shade takes its share of the sun away", () => {
  const air = { ...aDayBooth().air, sunC: [[0, 10]] as [number, number][] };
  const sunny = only(played(aDayBooth({ air })), "inside").at(-1);
  const shade = { kind: "shade", atMin: -120, keepsOut: 0.7 } as const;
  const shaded = only(played(aDayBooth({ air, incidents: [shade] })), "inside").at(-1);
  expect(Math.abs((sunny?.item.insideC ?? 0) - (shaded?.item.insideC ?? 0) - 7)).toBeLessThan(1);
});

test("a cut link is a hold of the link and takes no item away", () => {
  const cut = { kind: "linkCut", atMin: 3.5, forMin: 4 } as const;
  const lines = simulate(aDayBooth({ incidents: [cut] }), aDay(), 1);
  expect(lines.filter((line) => "holdLink" in line)).toEqual([{ atMs: 153.5 * 60_000, holdLink: 240_000 }]);
  expect(itemsOf(lines)).toEqual(played(aDayBooth()));
});
