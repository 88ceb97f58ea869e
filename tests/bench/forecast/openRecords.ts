import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, resolve } from "node:path";
import { decompress } from "fzstd";
import { asyncBufferFromFile, parquetReadObjects } from "hyparquet";
import * as z from "zod";

/** Instants at which something came, in one place between two hours of one day. Unix ms, in order. */
export type RecordedDay = {
  readonly startAtMs: number;
  readonly endAtMs: number;
  readonly atMs: readonly number[];
};

const dayMs = 86_400_000;

/** What of a flight is read: when it left (local time, to the minute) and how late it was, in minutes. */
const flight = z.object({ date: z.date(), delay: z.coerce.number(), origin: z.string() });

/** The first nine weeks of the year; the file has six months. */
const flightRows = 1_090_000;

/**
 * Departures of flights that came in more than a quarter of an hour late, by airport and day, between given hours
 * of the local day: for each pair of hours the airports, of each the days. They come in spells, as weather and crowding have it, and by the waves of a timetable:
 * nobody's guests, but real arrivals whose number differs severalfold from one day to the next.
 *
 * **Source:** on-time records of the U.S. Bureau of Transportation Statistics, January to March 2001, collected
 * under 14 CFR Part 234; work of a U.S. agency; carried by the npm package vega-datasets (`flights-3m.parquet`).
 */
export async function lateDepartures(
  airports: readonly string[],
  hours: readonly (readonly [from: number, to: number])[],
): Promise<readonly (readonly RecordedDay[][])[]> {
  const rows = await parquetReadObjects({
    file: await asyncBufferFromFile(dataFile("flights-3m.parquet")),
    columns: ["date", "delay", "origin"],
    rowEnd: flightRows,
    compressors: { ZSTD: (packed, length) => decompress(packed, new Uint8Array(length)) },
  });
  const wanted = new Map(airports.map((airport) => [airport, [] as number[]]));
  for (const row of rows) {
    if (typeof row["origin"] !== "string" || !wanted.has(row["origin"])) continue;
    const { date, delay, origin } = flight.parse(row);
    if (delay > 15) wanted.get(origin)?.push(date.getTime());
  }
  return hours.map(([fromHour, toHour]) => {
    const span = { fromMs: fromHour * 3_600_000, toMs: toHour * 3_600_000 };
    return [...wanted.values()].map((atMs) => byDay(atMs, span));
  });
}

const quakes = z.object({
  features: z.array(z.object({ properties: z.object({ time: z.number() }) })),
});

/**
 * Earthquakes of the whole world in six-hour stretches of one week: as good as chance can make arrivals, but for
 * aftershocks.
 *
 * **Source:** U.S. Geological Survey, feed of all earthquakes of the week to 2018-02-07, U.S. public domain;
 * carried by the npm package vega-datasets (`earthquakes.json`).
 */
export function earthquakes(): readonly RecordedDay[] {
  const text: unknown = JSON.parse(readFileSync(dataFile("earthquakes.json"), "utf8"));
  const atMs = quakes.parse(text).features.map(({ properties }) => properties.time);
  const first = Math.min(...atMs);
  const stretches = Math.floor((Math.max(...atMs) - first) / (dayMs / 4));
  return Array.from({ length: stretches }, (_, stretch) =>
    stretchOf(atMs, first + (stretch * dayMs) / 4, first + ((stretch + 1) * dayMs) / 4),
  );
}

function byDay(atMs: readonly number[], { fromMs, toMs }: { fromMs: number; toMs: number }): RecordedDay[] {
  const first = Math.floor(Math.min(...atMs) / dayMs);
  const days = Math.floor(Math.max(...atMs) / dayMs) - first;
  return Array.from({ length: days }, (_, day) =>
    stretchOf(atMs, (first + day) * dayMs + fromMs, (first + day) * dayMs + toMs),
  );
}

function stretchOf(atMs: readonly number[], startAtMs: number, endAtMs: number): RecordedDay {
  const inside = atMs.filter((at) => at > startAtMs && at <= endAtMs).sort((a, b) => a - b);
  return { startAtMs, endAtMs, atMs: inside };
}

/** The package lets only its script be imported; its data lies beside that. */
export function dataFile(name: string): string {
  const script = createRequire(import.meta.url).resolve("vega-datasets");
  return resolve(dirname(script), "../data", name);
}
