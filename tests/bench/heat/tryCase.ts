import { normalBelow } from "../../../dashboard/forecast/demand/normal.ts";
import { baselineAt, baselineNames, type BaselineName } from "./baselines.ts";
import type { OpenForecaster } from "./forecasters.ts";
import type { HeatCase } from "./heatCase.ts";

export const horizons = [15, 30, 60] as const;
export type Horizon = (typeof horizons)[number];

type Band = { readonly p10: number; readonly p50: number; readonly p90: number };

/** One ask at one horizon: what was said, and what came. */
export type Asked = {
  readonly minutes: Horizon;
  readonly cameC: number;
  readonly said: Band;
  readonly baselines: Readonly<Record<BaselineName, number>>;
};

/** Whether the limit, not yet passed, was passed within the hour, and the chance that was named. */
export type AskedLimit = {
  readonly passed: boolean;
  readonly chance: number;
  /** Of each baseline at each horizon: how far it is under the limit, C. */
  readonly roomC: Readonly<Record<BaselineName, readonly number[]>>;
};

export type Tried = {
  readonly family: string;
  readonly asked: readonly Asked[];
  readonly limits: readonly AskedLimit[];
  /** What taking the readings since the last ask, and the ask, took each time, per reading and ask. */
  readonly askMs: readonly number[];
};

const minuteMs = 60_000;

/** Runs one case through a forecaster and all baselines. */
export function tryCase(heat: HeatCase, open: OpenForecaster, clockMs: () => number): Tried {
  const forecaster = open(heat.site);
  const [asked, limits, askMs]: [Asked[], AskedLimit[], number[]] = [[], [], []];
  let taken = 0;
  for (const atMs of heat.asksAtMs) {
    const upTo = countUpTo(heat, atMs, taken);
    for (; taken < upTo - 1; taken += 1) forecaster.take(heat.readings[taken]!);
    const before = clockMs();
    for (; taken < upTo; taken += 1) forecaster.take(heat.readings[taken]!);
    const ahead = forecaster.ask(atMs);
    askMs.push(clockMs() - before);
    if (ahead === null) continue;
    const recent = heat.readings.slice(Math.max(0, taken - 40), taken);
    const baselines = (minutes: number) =>
      Object.fromEntries(
        baselineNames.map((name) => [name, baselineAt(name, recent, atMs, minutes)]),
      ) as Asked["baselines"];
    horizons.forEach((minutes, at) => {
      const cameC = heat.cameC(atMs + minutes * minuteMs);
      if (cameC !== null)
        asked.push({ minutes, cameC, said: ahead.points[at]!, baselines: baselines(minutes) });
    });
    const limit = askedLimit(heat, atMs, ahead.crossChance60 ?? NaN, horizons.map(baselines));
    if (limit !== null) limits.push(limit);
  }
  return { family: heat.family, asked, limits, askMs };
}

function countUpTo({ readings }: HeatCase, atMs: number, from: number): number {
  let count = from;
  while (count < readings.length && readings[count]!.atMs <= atMs) count += 1;
  return count;
}

function askedLimit(
  { cameC, site }: HeatCase,
  atMs: number,
  chance: number,
  baselines: readonly Asked["baselines"][],
): AskedLimit | null {
  const nowC = cameC(atMs);
  if (nowC === null || nowC > site.limitC) return null;
  const roomC = Object.fromEntries(
    baselineNames.map((name) => [name, baselines.map((each) => site.limitC - each[name])]),
  ) as unknown as AskedLimit["roomC"];
  return { passed: passesWithinHour(cameC, atMs, site.limitC), chance, roomC };
}

export function passesWithinHour(cameC: HeatCase["cameC"], atMs: number, limitC: number): boolean {
  for (let minute = 1; minute <= 60; minute += 1)
    if ((cameC(atMs + minute * minuteMs) ?? -Infinity) > limitC) return true;
  return false;
}

/** A baseline's chance that the limit is passed, from how far its errors of each horizon scatter in hindsight. */
export function baselineChance(roomC: readonly number[], sdsC: readonly number[]): number {
  return Math.max(...roomC.map((room, at) => 1 - normalBelow(room / Math.max(1e-3, sdsC[at] ?? NaN))));
}
