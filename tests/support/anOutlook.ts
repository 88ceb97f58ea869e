import type { HeatAhead, Outlook } from "@boothward/shared-types";

/** An outlook with nothing ahead but what a test is about. */
export function anOutlook(
  atMs: number,
  media: Outlook["media"] = null,
  over: Partial<Omit<Outlook, "atMs" | "media">> = {},
): Outlook {
  return { atMs, media, heat: [], sun: null, idle: null, printer: null, ...over };
}

const stepMs = 5 * 60_000;

/** A middle course that stays at 35, and an upper one that climbs from 36 by half a degree in five minutes. */
export function aHeatAhead(atMs: number, crossChance60: number): HeatAhead {
  const fan = Array.from({ length: 13 }, (_, step) => ({
    ...{ atMs: atMs + step * stepMs, p10: 34, p50: 35 },
    p90: 36.2 + step / 2,
  }));
  return { sensor: "printer", basis: "enoughData", fan, crossChance60, crossAtMs: null };
}
