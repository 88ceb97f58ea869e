import type { Day, DayBooth } from "./day.ts";
import { between, type Dice, seededDice } from "./dice.ts";
import { type Visit, visitsOf } from "./guests.ts";
import { type Printing, printingOf } from "./printing.ts";
import { printerLines } from "./printerLines.ts";
import type { MinuteLine, ScenarioHold, ScenarioLine } from "./scenarioLine.ts";
import { airOf } from "./surroundings.ts";

/** The booth is packed down this long after its close; there the scenario ends. */
const packDownMin = 20;

/**
 * One booth's whole day as the lines of a scenario, from `day.startMin` to its pack-down.
 *
 * Pure: the same booth, day and seed give the same lines. Offsets are ms since the scenario's start,
 * so "now" is at `nowOffsetMs(day)`.
 */
export function simulate(booth: DayBooth, day: Day, seed: number): ScenarioLine[] {
  const diceFor = (purpose: string): Dice => seededDice(seed, `${booth.name}/${purpose}`);
  const endMin = booth.booking.closeMin + packDownMin;
  const { visits, printing } = simulatePrinting(booth, seed);
  const items = [
    ...readinessLines(booth, day, endMin),
    ...visits.map((visit, i) => sessionLine(booth, visit, i + 1)),
    ...rollLines(booth, printing),
    ...printerLines(booth, day, printing),
    ...airLines(booth, day, endMin, diceFor("air")),
    ...hostLines(day, endMin, diceFor("host")),
  ];
  const timed = items
    .filter((line) => line.atMin >= day.startMin && line.atMin <= endMin)
    .map(({ atMin, item }) => ({ atMs: offsetMs(day, atMin), item }));
  return [
    { scenario: day.name, lengthMs: offsetMs(day, endMin) },
    ...[...timed, ...holds(booth, day)].sort((a, b) => a.atMs - b.atMs),
  ];
}

/** What the day is made of before anybody sees it: who came, and what the printer made of it. */
export function simulatePrinting(
  booth: DayBooth,
  seed: number,
): { readonly visits: readonly Visit[]; readonly printing: Printing } {
  const visits = visitsOf(booth, seededDice(seed, `${booth.name}/guests`));
  return { visits, printing: printingOf(booth, visits, seededDice(seed, `${booth.name}/printer`)) };
}

/** Where "now" lies in the day's scenarios, ms after their start. */
export function nowOffsetMs(day: Day): number {
  return offsetMs(day, 0);
}

function offsetMs(day: Day, atMin: number): number {
  return Math.round((atMin - day.startMin) * 60_000);
}

function readinessLines({ booking }: DayBooth, day: Day, endMin: number): MinuteLine[] {
  const by = booking.attendant;
  const setUpMin = booking.openMin - day.startMin;
  const steps = [
    ["onSite", day.startMin],
    ["powered", day.startMin + setUpMin / 3],
    ["checked", day.startMin + (2 * setUpMin) / 3],
    ["open", booking.openMin],
    ["closing", booking.closeMin],
    ["packedDown", endMin],
  ] as const;
  const power = { class: "fact", kind: "power", isOnMains: true, batteryPct: null } as const;
  return [
    { atMin: day.startMin, item: power },
    ...steps.map(([to, atMin]) => ({ atMin, item: { class: "fact", kind: "readiness", to, by } as const })),
  ];
}

function sessionLine(booth: DayBooth, visit: Visit, number: number): MinuteLine {
  return {
    atMin: visit.toMin,
    item: {
      class: "fact",
      kind: "session",
      sessionId: `${booth.name}-session-${String(number)}`,
      durationMs: Math.round((visit.toMin - visit.fromMin) * 60_000),
      layouts: 1,
      shots: null,
      basis: "layouts",
    },
  };
}

function rollLines(booth: DayBooth, { fitted }: Printing): MinuteLine[] {
  if (!booth.saysRolls) return [];
  const by = booth.booking.attendant;
  return fitted.map(({ atMin, sheets }) => ({
    atMin,
    item: { class: "fact", kind: "rollFitted", sheets, by },
  }));
}

function airLines(booth: DayBooth, day: Day, endMin: number, dice: Dice): MinuteLine[] {
  const { sensor, isOutsideRead } = booth.air;
  return airOf(booth, day.startMin, endMin, dice).flatMap(({ atMin, insideC, outsideC }) => {
    const inside = { class: "reading", kind: "inside", sensor, insideC, humidityPct: null } as const;
    const outside = { class: "reading", kind: "outside", sensor: "outside", outsideC } as const;
    const isOutsideDue = isOutsideRead && (atMin - day.startMin) % 5 === 0;
    return [{ atMin, item: inside }, ...(isOutsideDue ? [{ atMin, item: outside }] : [])];
  });
}

function hostLines(day: Day, endMin: number, dice: Dice): MinuteLine[] {
  const lines: MinuteLine[] = [];
  for (let atMin = day.startMin + 0.25; atMin <= endMin; atMin++) {
    const item = {
      class: "reading",
      kind: "host",
      memoryUsedPct: Math.round(between(dice, 48, 56)),
      loadPct: Math.round(between(dice, 6, 24)),
      processorC: Math.round(between(dice, 52, 61)),
      diskFreeMb: Math.round(61_500 - (atMin - day.startMin) * 9),
      batteryPct: null,
      networkUp: true,
    } as const;
    lines.push({ atMin, item });
  }
  return lines;
}

function holds(booth: DayBooth, day: Day): ScenarioHold[] {
  return booth.incidents.flatMap((made) =>
    made.kind === "linkCut"
      ? [{ atMs: offsetMs(day, made.atMin), holdLink: Math.round(made.forMin * 60_000) }]
      : [],
  );
}
