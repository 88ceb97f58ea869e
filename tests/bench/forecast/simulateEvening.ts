import { between, noise, pick, seededDice, type Dice } from "../../../seeds/dice.ts";
import { boothLine } from "./boothLine.ts";
import { drawFactor, drawGamma } from "./draws.ts";
import type { Evening } from "./evening.ts";
import { drawShape, usualShape, type Shape } from "./eveningShape.ts";
import { drawRecipe, familyNames, type Recipe } from "./families.ts";
import { guestArrivals } from "./guestArrivals.ts";
import { isoOf, type PastLine } from "./replayLines.ts";

/** Evenings to fit on, and others to judge by: the two never share a seed. */
export type SeedRange = "tune" | "judge";
const firstSeed: Readonly<Record<SeedRange, number>> = { tune: 1_000_000, judge: 5_000_000 };

/** Sessions a guest over an evening, as a planner counts: common practice, no source. */
const plannedSessionsPerGuest = 0.75;
/** What a kind's guests really do, which the planner does not know. */
const sessionsPerGuest: Readonly<Record<string, number>> = {
  wedding: 0.8,
  corporate: 0.65,
  party: 0.85,
  public: 0.6,
  gala: 0.75,
};
/** What is loaded, as against what is expected: whatever roll was to hand, begun ones too. */
export const loadSpread = 0.33;
export const loadMargin = 0.05;
/** Sessions an hour that a planner takes to be the most a booth can do: common practice, no source. */
const plannedMostPerHour = 45;
/** Where the plan says nothing, a planner takes it that this share of the loaded sheets will be used. */
export const usualShareOfLoad = 0.85;
/** Sheets a session that a planner counts on when the plan does not say. */
const plannedSheetsPerSession = 1.7;
/** A quieter evening than this tells nothing of a forecast. */
const fewestSheets = 12;

/** How many of 1, 2, 3 and 4 sheets a session takes: one each, a pair, a copy for everybody. */
const copies: readonly (readonly number[])[] = [
  [0.78, 0.17, 0.04, 0.01],
  [0.3, 0.5, 0.14, 0.06],
  [0.15, 0.35, 0.3, 0.2],
];

/** The evenings of a family, always the same for the same range of seeds. */
export function simulateFamily(family: string, range: SeedRange, count: number): Evening[] {
  const first = firstSeed[range] + familyNames.indexOf(family) * 10_000;
  const evenings: Evening[] = [];
  for (let seed = first; evenings.length < count; seed += 1) {
    const evening = simulateEvening(family, seed);
    if (evening.sessions.reduce((sum, { sheets }) => sum + sheets, 0) >= fewestSheets) evenings.push(evening);
  }
  return evenings;
}

/** What one evening is drawn from, beside what is particular about its family. */
type House = {
  readonly participation: number;
  readonly mix: readonly number[];
  readonly sessionMs: number;
  readonly usual: Shape;
};

function simulateEvening(family: string, seed: number): Evening {
  const dice = seededDice(seed, "evening");
  const recipe = drawRecipe(family, dice);
  const house: House = {
    participation: sessionsPerGuest[recipe.kindName] ?? between(dice, 0.45, 1.05),
    mix: pick(
      dice,
      copies.map((mix) => [mix, 1] as const),
    ),
    sessionMs: recipe.crowded ? between(dice, 75_000, 100_000) : between(dice, 60_000, 90_000),
    usual: usualShape(recipe.kind),
  };
  const past = Array.from({ length: recipe.earlierEvenings }, (_, back) =>
    pastLine(recipe, house, back, dice),
  );
  const startAtMs = Date.UTC(2026, 5, 6, 17) + 1_800_000 * Math.floor(dice() * 5);
  const night = drawNight(recipe, house, startAtMs, dice);
  const stated = dice() < 0.65 ? Math.round(10 * meanOf(house.mix) * drawFactor(dice, 0.06)) / 10 : null;
  const hours = (night.endAtMs - startAtMs) / 3_600_000;
  const expected = expectedSheets(night.guests, hours, stated, past);
  const loaded = Math.max(10, Math.round(expected * Math.exp(noise(dice, loadSpread) + loadMargin)));
  const { toldStops, sessions, endAtMs } = night;
  return {
    family,
    startAtMs,
    endAtMs,
    past,
    sessions,
    toldStops,
    plan: {
      kind: "plan",
      start: isoOf(startAtMs),
      end: isoOf(endAtMs),
      guests: recipe.says === "nothing" ? null : night.guests,
      pattern: recipe.says === "nothing" ? null : recipe.kindName,
      sheetsLoaded: loaded,
      sheetsPerSession: stated,
    },
    usualShape: house.usual,
    plannedSheets: recipe.says === "nothing" ? usualShareOfLoad * loaded : expected,
  };
}

type Night = Pick<Evening, "sessions" | "toldStops" | "endAtMs"> & { readonly guests: number };

/** The guests who really come, what holds them up, and what they take with them. */
function drawNight(recipe: Recipe, house: House, startAtMs: number, dice: Dice): Night {
  const lengthMs = 1_800_000 * (6 + Math.floor(dice() * 7));
  const guests = drawGuests(recipe, lengthMs, dice);
  const groups = guests * house.participation * recipe.level * drawGamma(dice, recipe.levelSpread);
  const stops = recipe.stopShares
    .map(({ at, minutes }) => ({ fromMs: at * lengthMs, toMs: at * lengthMs + minutes * 60_000 }))
    .sort((a, b) => a.fromMs - b.fromMs);
  const arrivals = guestArrivals(drawShape(recipe.kind, dice), groups, lengthMs, recipe.bends, dice);
  const longestLine = Math.floor(recipe.crowded ? between(dice, 12, 30) : between(dice, 5, 14));
  const ends = boothLine(arrivals, { sessionMs: house.sessionMs, longestLine, stops }, dice);
  const weights = house.mix.map((weight, index) => [index + 1, weight] as const);
  return {
    guests,
    endAtMs: startAtMs + lengthMs,
    sessions: ends
      .filter((endMs) => endMs <= lengthMs)
      .map((endMs) => ({ atMs: startAtMs + Math.round(endMs), sheets: pick(dice, weights) })),
    toldStops: recipe.stopsTold
      ? stops.map(({ fromMs, toMs }) => ({
          fromAtMs: startAtMs + Math.round(fromMs),
          toAtMs: startAtMs + Math.round(Math.min(toMs, lengthMs)),
        }))
      : [],
  };
}

/** In whole tens, as a client says them. A crowd brings more than the booth can take. */
function drawGuests(recipe: Recipe, lengthMs: number, dice: Dice): number {
  const usual = recipe.crowded
    ? (lengthMs / 3_600_000) * between(dice, 60, 110)
    : Math.min(320, Math.max(40, 105 * Math.exp(noise(dice, 0.4))));
  return 10 * Math.round(usual / 10);
}

/** What a planner counts on: earlier evenings, by the guests, or the guests alone. */
function expectedSheets(
  guests: number,
  hours: number,
  stated: number | null,
  past: readonly PastLine[],
): number {
  if (past.length === 0) {
    const sessions = Math.min(guests * plannedSessionsPerGuest, hours * plannedMostPerHour);
    return sessions * (stated ?? plannedSheetsPerSession);
  }
  const sheets = past.reduce((sum, line) => sum + line.sheets, 0);
  const guestsBefore = past.reduce((sum, line) => sum + (line.guests ?? 0), 0);
  return (guests * sheets) / guestsBefore;
}

function pastLine(recipe: Recipe, house: House, back: number, dice: Dice): PastLine {
  const startAtMs = Date.UTC(2026, 4, 30 - 7 * back, 18);
  const night = drawNight(recipe, house, startAtMs, dice);
  const bins15 = new Array<number>(Math.ceil((night.endAtMs - startAtMs) / 900_000)).fill(0);
  for (const { atMs, sheets } of night.sessions) {
    const bin = Math.min(bins15.length - 1, Math.floor((atMs - startAtMs) / 900_000));
    bins15[bin] = (bins15[bin] ?? 0) + sheets;
  }
  return {
    kind: "past",
    pattern: recipe.kindName,
    start: isoOf(startAtMs),
    end: isoOf(night.endAtMs),
    guests: night.guests,
    sessions: night.sessions.length,
    sheets: bins15.reduce((sum, sheets) => sum + sheets, 0),
    bins15,
  };
}

function meanOf(mix: readonly number[]): number {
  return mix.reduce((sum, weight, index) => sum + weight * (index + 1), 0);
}
