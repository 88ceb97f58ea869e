import { readFileSync } from "node:fs";
import { dataFile } from "../forecast/openRecords.ts";
import type { HeatCase } from "./heatCase.ts";
import type { SeedRange } from "./simulateCase.ts";

const hourMs = 3_600_000;
/** Seattle, whose clocks the file follows without summer time: eight hours behind UTC. */
const place = { latitudeDeg: 47.61, longitudeDeg: -122.33 };
const utcOffsetMs = -8 * hourMs;
const daysEach = 6;

/**
 * Hourly temperatures outdoors through a year, as they stand in the file: means of many years for each hour, so
 * smoother than any one day, and only at 60 min is there anything to hold a forecast against. No booth, but a real
 * course of sun and air. Odd stretches are for tuning, even ones for judging.
 *
 * **Source:** U.S. National Centers for Environmental Information, hourly normals 1981 to 2010, U.S. public domain;
 * carried by the npm package vega-datasets (`seattle-weather-hourly-normals.csv`).
 */
export function openSeries(range: SeedRange, count: number): HeatCase[] {
  const rows = readFileSync(dataFile("seattle-weather-hourly-normals.csv"), "utf8")
    .trim()
    .split("\n")
    .slice(1);
  const readings = rows.map((row) => {
    const [date = "", , temperature] = row.split(",");
    return { atMs: Date.parse(`${date}Z`) - utcOffsetMs, insideC: Number(temperature), outsideC: null };
  });
  const cameC = new Map(readings.map(({ atMs, insideC }) => [atMs, insideC]));
  const stretches = Array.from({ length: Math.floor(readings.length / (24 * daysEach)) }, (_, at) =>
    readings.slice(at * 24 * daysEach, (at + 1) * 24 * daysEach),
  ).filter((_, at) => at % 2 === (range === "tune" ? 1 : 0));
  return stretches.slice(0, count).map((stretch) => {
    const highest = Math.max(...stretch.map(({ insideC }) => insideC));
    return {
      family: "open series, outdoors",
      site: { ...place, horizon: [], views: [], limitC: Math.floor(highest) - 0.5, expectedHighC: null },
      readings: stretch,
      asksAtMs: stretch.slice(6, -1).map(({ atMs }) => atMs),
      cameC: (atMs) => cameC.get(atMs) ?? null,
    };
  });
}
