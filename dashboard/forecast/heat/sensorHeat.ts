import type { HeatAhead } from "@boothward/shared-types";
import type { InsidePoint, InsideSensor } from "../../booth/readings.ts";
import { forecastHeat } from "./forecastHeat.ts";
import type { HeatDrive } from "./heatDrive.ts";
import { heatRunOf, withReading, type HeatRun } from "./heatRun.ts";
import type { HeatSite } from "./heatSite.ts";

/** The run of one thermometer up to its last settled reading, with what it was made from. Never changed. */
export type SensorMemo = {
  readonly sensor: string;
  /** What the site was made of. */
  readonly siteKey: string;
  readonly taken: readonly InsidePoint[];
  readonly run: HeatRun;
};

export type KnownSite = { readonly key: string; readonly site: HeatSite; readonly drive: HeatDrive };

const minuteMs = 60_000;
const stretchMs = 2 * 60 * minuteMs;

/**
 * The next hour at one thermometer. A pure function of its trail: the run begins with the stretch of two hours
 * before the present one, so that a restart, which reads the same trail, gives the same forecast.
 */
export function sensorHeat(
  before: SensorMemo | null,
  { key, site, drive }: KnownSite,
  { sensor, trail }: InsideSensor,
  atMs: number,
): { readonly memo: SensorMemo | null; readonly ahead: HeatAhead | null } {
  const last = trail.at(-1);
  if (last === undefined) return { memo: null, ahead: null };
  const beginsAtMs = Math.floor(last.atMs / stretchMs) * stretchMs - stretchMs;
  const points = trail.filter((point) => point.atMs >= beginsAtMs);
  // The latest point of a minute is replaced until the minute is over.
  const settled = points.slice(0, -1);
  const isBeginning = before !== null && before.siteKey === key && isPrefix(before.taken, settled);
  let run = isBeginning ? before.run : heatRunOf(site, drive);
  for (const point of settled.slice(isBeginning ? before.taken.length : 0)) run = withReading(run, point);
  const memo = { sensor, siteKey: key, taken: settled, run };
  return { memo, ahead: aheadOf(sensor, withReading(run, last), atMs) };
}

function aheadOf(sensor: string, run: HeatRun, atMs: number): HeatAhead | null {
  const said = forecastHeat(run, atMs);
  if (said === null) return null;
  const { basis, crossChance60, crossAtMs } = said;
  const fan = said.fan.map(({ minutes, p10, p50, p90 }) => ({
    atMs: atMs + minutes * minuteMs,
    ...{ p10: inTenths(p10), p50: inTenths(p50), p90: inTenths(p90) },
  }));
  return { sensor, basis, fan, crossChance60: crossChance60 ?? 0, crossAtMs };
}

/** No thermometer knows more. */
function inTenths(degC: number): number {
  return Math.round(degC * 10) / 10;
}

function isPrefix(taken: readonly InsidePoint[], settled: readonly InsidePoint[]): boolean {
  return taken.length <= settled.length && taken.every((point, at) => isSame(point, settled[at]));
}

function isSame(a: InsidePoint, b: InsidePoint | undefined): boolean {
  if (a === b) return true;
  return a.atMs === b?.atMs && a.insideC === b.insideC && a.outsideC === b.outsideC;
}
