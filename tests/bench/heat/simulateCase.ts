import { between, noise, seededDice, type Dice } from "../../../seeds/dice.ts";
import type { HeatReading } from "../../../dashboard/forecast/heat/heatSite.ts";
import { stepBuilding, type Building, type Inside, type Nodes } from "./building.ts";
import { asksBetween, type HeatCase } from "./heatCase.ts";
import { openSky, type SkyNow, type Weather } from "./weather.ts";

/** How a thermometer is read, and what goes wrong with it. */
export type Thermometer = {
  readonly everyMin: number;
  readonly stepC: number;
  readonly noiseC: number;
  readonly outside: boolean;
  /** Readings lost in gaps, single ones far off, and stretches in which it stands still. */
  readonly gaps: number;
  readonly spikes: number;
  readonly sticks: number;
};

/** What is done inside from minute to minute: a maker of one, so that each day has its own. */
export type Doings = (dice: Dice) => (nodes: Nodes, minute: number, hour: number, sky: SkyNow) => Inside;

export type Setting = {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
  /** Month 0 to 11, first hour of solar time, hours in all. */
  readonly month: number;
  readonly fromHour: number;
  readonly hours: number;
  readonly building: Building;
  readonly weather: Weather;
  readonly thermometer: Thermometer;
  readonly doings: Doings;
  /** The limit lies so far above where the day begins, whatever the day brings: a printer's limit knows no weather. */
  readonly limitAboveC: readonly [least: number, most: number];
  /** What it begins at, where it is lived in; a booth begins near the air outside. */
  readonly livedInC?: number;
};

export type SeedRange = "tune" | "judge";
const firstSeed: Readonly<Record<SeedRange, number>> = { tune: 1, judge: 50_001 };

const minuteMs = 60_000;
/** Asked from then on; the hour before the end is needed to see what came. */
const firstAskMin = 45;

export function simulateCases(
  family: string,
  settingOf: (dice: Dice) => Setting,
  range: SeedRange,
  count: number,
): HeatCase[] {
  return Array.from({ length: count }, (_, at) => {
    const seed = firstSeed[range] + at;
    const setting = settingOf(seededDice(seed, `${family}/setting`));
    return simulateCase(family, setting, (purpose) => seededDice(seed, `${family}/${purpose}`));
  });
}

function simulateCase(family: string, setting: Setting, diceFor: (purpose: string) => Dice): HeatCase {
  const { latitudeDeg, longitudeDeg, thermometer } = setting;
  const day = 1 + Math.floor(diceFor("day")() * 28);
  const fromMs = Date.UTC(2025, setting.month, day) + (setting.fromHour - longitudeDeg / 15) * 60 * minuteMs;
  const { sensorC, outsideC } = courseOf(setting, fromMs, diceFor);
  const readings = readOff(sensorC, outsideC, fromMs, thermometer, diceFor("thermometer"));
  const limitC = Math.round(2 * (sensorC[0]! + between(diceFor("limit"), ...setting.limitAboveC))) / 2;
  const { views } = setting.building;
  return {
    family,
    site: { latitudeDeg, longitudeDeg, horizon: [], views, limitC, expectedHighC: null },
    readings,
    asksAtMs: asksBetween(fromMs, firstAskMin, setting.hours * 60 - 60),
    cameC: (atMs) => sensorC[Math.round((atMs - fromMs) / minuteMs)] ?? null,
  };
}

/** Run before the first reading, so that nothing stands at one temperature. */
const runInMin = 240;

function courseOf(setting: Setting, fromMs: number, diceFor: (purpose: string) => Dice) {
  const sky = openSky(setting, setting.weather, diceFor("sky"));
  const startMs = fromMs - runInMin * minuteMs;
  const first = setting.livedInC ?? sky(startMs).outsideC + between(diceFor("start"), 0, 4);
  const nodes: Nodes = { air: first, inner: first, outer: first, goods: first, sensor: first };
  const doings = setting.doings(diceFor("doings"));
  const [sensorC, outsideC]: [number[], number[]] = [[], []];
  for (let minute = -runInMin; minute <= setting.hours * 60; minute += 1) {
    const now = sky(fromMs + minute * minuteMs);
    if (minute >= 0) {
      sensorC.push(nodes.sensor);
      outsideC.push(now.outsideC);
    }
    const hour = (((setting.fromHour + minute / 60) % 24) + 24) % 24;
    stepBuilding(nodes, setting.building, now, doings(nodes, minute, hour, now));
  }
  return { sensorC, outsideC };
}

function readOff(
  sensorC: readonly number[],
  outsideC: readonly number[],
  fromMs: number,
  { everyMin, stepC, noiseC, outside, gaps, spikes, sticks }: Thermometer,
  dice: Dice,
): HeatReading[] {
  const readings: HeatReading[] = [];
  let [lostUntil, stuckUntil, stuckAtC] = [-1, -1, 0];
  for (let minute = 0; minute < sensorC.length; minute += everyMin) {
    if (minute > lostUntil && dice() < (gaps * everyMin) / 600) lostUntil = minute + between(dice, 10, 150);
    let insideC = toStep(sensorC[minute]! + noise(dice, noiseC), stepC);
    if (minute > stuckUntil && dice() < (sticks * everyMin) / 600)
      [stuckUntil, stuckAtC] = [minute + between(dice, 20, 90), insideC];
    if (minute <= stuckUntil) insideC = stuckAtC;
    if (dice() < (spikes * everyMin) / 600) insideC = dice() < 0.4 ? 85 : insideC + noise(dice, 12);
    if (minute <= lostUntil) continue;
    const outsideRead = outside ? toStep(outsideC[minute]! + noise(dice, 0.2), 0.1) : null;
    readings.push({ atMs: fromMs + minute * minuteMs, insideC, outsideC: outsideRead });
  }
  return readings;
}

function toStep(degC: number, stepC: number): number {
  return Math.round(Math.round(degC / stepC) * stepC * 1000) / 1000;
}
