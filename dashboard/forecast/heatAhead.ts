import type { HeatAhead } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothSettings } from "../booth/boothSettings.ts";
import type { BoothState } from "../booth/boothState.ts";
import { heatSiteOf } from "./boothSite.ts";
import { sensorHeat, type SensorMemo } from "./heat/sensorHeat.ts";

const minuteMs = 60_000;

/** The next hour at each thermometer of a booth, the one that threatens most first. */
export function heatAheadOf(
  { readings }: Pick<BoothState, "readings">,
  booking: BookedTime | null,
  settings: BoothSettings,
  atMs: number,
  before: readonly SensorMemo[],
): { readonly heat: HeatAhead[]; readonly memo: readonly SensorMemo[] } {
  if (readings.inside.length === 0) return { heat: [], memo: [] };
  const site = heatSiteOf(settings, booking);
  const each = readings.inside.map((seen) =>
    sensorHeat(before.find(({ sensor }) => sensor === seen.sensor) ?? null, site, seen, atMs),
  );
  return {
    heat: each
      .flatMap(({ ahead }) => ahead ?? [])
      .sort((a, b) => b.crossChance60 - a.crossChance60 || warmest(b) - warmest(a)),
    memo: each.flatMap(({ memo }) => memo ?? []),
  };
}

/** Whether two states give the same look ahead at the temperature: a reading more within its minute tells little. */
export function isSameHeat(
  { readings: a }: Pick<BoothState, "readings">,
  { readings: b }: Pick<BoothState, "readings">,
): boolean {
  if (a.inside === b.inside) return true;
  return (
    a.inside.length === b.inside.length &&
    a.inside.every((seen, at) => minuteOf(seen.atMs) === minuteOf(b.inside[at]?.atMs ?? -1))
  );
}

function minuteOf(atMs: number): number {
  return Math.floor(atMs / minuteMs);
}

function warmest({ fan }: HeatAhead): number {
  return Math.max(...fan.map(({ p50 }) => p50));
}
