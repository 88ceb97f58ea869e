import type { HeatReading, HeatSite } from "../../dashboard/forecast/heat/heatSite.ts";
import { forecastHeat } from "../../dashboard/forecast/heat/forecastHeat.ts";
import { heatRunOf, withReading, type HeatRun } from "../../dashboard/forecast/heat/heatRun.ts";

/** A site on a summer's day with one opening to the west and the printer behind it, unless said otherwise. */
export function aHeatSite(changes: Partial<HeatSite> = {}): HeatSite {
  const overhang = null;
  const printer = { depthM: 1.2, rightM: 0, heightM: 1 };
  const west = { bearingDeg: 270, widthM: 0.8, heightM: 1.9, sillM: 0, overhang, printer };
  return {
    ...{ latitudeDeg: 40, longitudeDeg: -105, horizon: [], limitC: 35, expectedHighC: null },
    views: [west],
    ...changes,
  };
}

/** 10:00 of solar time in June at that site. */
export const morningAtMs = Date.UTC(2025, 5, 21, 17);

/** Readings minutes apart, one after another, from the morning on. */
export function heatReadings(
  insideC: readonly number[],
  { everyMin = 1, outsideC = null as number | null, fromMs = morningAtMs } = {},
): HeatReading[] {
  return insideC.map((degC, at) => ({ atMs: fromMs + at * everyMin * 60_000, insideC: degC, outsideC }));
}

export function runOf(readings: readonly HeatReading[], run: HeatRun = heatRunOf(aHeatSite())): HeatRun {
  return readings.reduce(withReading, run);
}

/** The forecast at the last reading of a run. */
export function forecastNow(run: HeatRun) {
  const ahead = forecastHeat(run, run.seenAtMs ?? NaN);
  if (ahead === null) throw new Error("no reading was taken");
  return ahead;
}
