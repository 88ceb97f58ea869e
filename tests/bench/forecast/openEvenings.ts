import { noise, seededDice } from "../../../seeds/dice.ts";
import type { Evening } from "./evening.ts";
import { peopleIn } from "./doorCounts.ts";
import { meanShape } from "./eveningShape.ts";
import { earthquakes, lateDepartures, type RecordedDay } from "./openRecords.ts";
import { isoOf, type PastLine } from "./replayLines.ts";
import { loadMargin, loadSpread, usualShareOfLoad, type SeedRange } from "./simulateEvening.ts";

/** Open records as evenings: each arrival a session of one sheet, nobody knows the guests. */
export type OpenEvenings = {
  /** With the days before told. */
  readonly learned: readonly Evening[];
  /** The same days with nothing told but the roll that is loaded. */
  readonly cold: readonly Evening[];
};

/** Days before that are told. */
const daysBefore = 7;
/** Fewer arrivals than this in a stretch tell nothing of a forecast. */
const fewestArrivals = 12;
const quarterMs = 900_000;

/** Airports to fit on, and others to judge by; the earthquakes are for judging only. */
const airports: Readonly<Record<SeedRange, readonly string[]>> = {
  tune: ["SFO", "PIT", "CLT", "MIA"],
  judge: ["DEN", "BOS", "SEA", "PHL"],
};

/** Two halves of the day that open and die down as an event does. */
const windows = [
  { name: "late departures, morning", hours: [5, 12] },
  { name: "late departures, evening", hours: [17, 24] },
] as const;

/** At most `count` evenings of each set of records, spread over its places and days. */
export async function openEvenings(range: SeedRange, count: number): Promise<OpenEvenings> {
  const learned: Evening[] = [];
  const cold: Evening[] = [];
  const take = (name: string, places: Iterable<readonly RecordedDay[]>) => {
    const days = [...places].flatMap((place) => daysOf(place, name));
    for (const day of spread(days, count)) {
      learned.push(asEvening(day, true));
      cold.push(asEvening(day, false));
    }
  };
  const byWindow = await lateDepartures(
    airports[range],
    windows.map(({ hours }) => hours),
  );
  windows.forEach(({ name }, at) => take(name, (byWindow[at] ?? []).map(withinMinutes)));
  take("people at a door", [peopleIn(range, daysBefore)]);
  if (range === "judge") take("earthquakes", [earthquakes()]);
  return { learned, cold };
}

type Day = {
  readonly name: string;
  readonly day: RecordedDay;
  readonly before: readonly RecordedDay[];
};

function daysOf(place: readonly RecordedDay[], name: string): Day[] {
  const events = place.filter(({ atMs }) => atMs.length >= fewestArrivals);
  return events
    .map((day, at) => ({ name, day, before: events.slice(Math.max(0, at - daysBefore), at) }))
    .filter(({ before }) => before.length === daysBefore);
}

function asEvening({ name, day, before }: Day, told: boolean): Evening {
  const dice = seededDice(day.startAtMs / 3_600_000 + day.atMs.length, "roll");
  const usual = before.reduce((sum, { atMs }) => sum + atMs.length, 0) / before.length;
  const loaded = Math.max(10, Math.round(usual * Math.exp(noise(dice, loadSpread) + loadMargin)));
  const [start, end] = [isoOf(day.startAtMs), isoOf(day.endAtMs)];
  return {
    family: `${name}, ${told ? "days before told" : "cold"}`,
    startAtMs: day.startAtMs,
    endAtMs: day.endAtMs,
    plan: {
      kind: "plan",
      start,
      end,
      guests: null,
      pattern: told ? name : null,
      sheetsLoaded: loaded,
      sheetsPerSession: 1,
    },
    past: told ? before.map((one) => pastLine(one, name)) : [],
    sessions: day.atMs.map((atMs) => ({ atMs, sheets: 1 })),
    toldStops: [],
    // The baselines know the days that the forecast is told of, and no shape without.
    usualShape: meanShape(told ? before.map(quarters) : []),
    plannedSheets: told ? usual : usualShareOfLoad * loaded,
  };
}

function pastLine(day: RecordedDay, pattern: string): PastLine {
  const bins15 = quarters(day);
  const sheets = day.atMs.length;
  const [start, end] = [isoOf(day.startAtMs), isoOf(day.endAtMs)];
  return { kind: "past", pattern, start, end, guests: null, sessions: sheets, sheets, bins15 };
}

/** Arrivals by quarter-hour. */
function quarters({ startAtMs, endAtMs, atMs }: RecordedDay): number[] {
  const counts = new Array<number>(Math.ceil((endAtMs - startAtMs) / quarterMs)).fill(0);
  for (const at of atMs) {
    const slot = Math.min(counts.length - 1, Math.floor((at - startAtMs) / quarterMs));
    counts[slot] = (counts[slot] ?? 0) + 1;
  }
  return counts;
}

/** Records to the minute, each put somewhere within its minute. */
function withinMinutes(days: readonly RecordedDay[]): RecordedDay[] {
  return days.map((day) => {
    const dice = seededDice(day.startAtMs / 3_600_000, "seconds");
    const atMs = day.atMs.map((at) => at - Math.floor(dice() * 60_000)).sort((a, b) => a - b);
    return { ...day, atMs };
  });
}

/** At most `count` of them, evenly taken. */
function spread<T>(all: readonly T[], count: number): T[] {
  const step = Math.max(1, all.length / count);
  return all.filter((_, at) => Math.floor(at / step) !== Math.floor((at - 1) / step));
}
