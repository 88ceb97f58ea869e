import type { Booking, PowerPlan } from "@boothward/shared-types";
import { readLocalTime, writeLocalTime } from "../tables/localTime.ts";

/** Lists of a booking within one cell, their entries parted by ";". */

/** What a cell says, or why it says nothing. */
export type CellRead = { readonly said: unknown } | { readonly sentence: string };

type Breaks = Booking["breaks"];
type Horizon = Booking["standing"]["horizon"];
type Loads = PowerPlan["loads"];

/** "2026-06-20 20:00 to 2026-06-20 20:30". */
export function writeBreaks(breaks: Breaks, zone: string): string {
  return breaks
    .map(({ fromAtMs, toAtMs }) => `${writeLocalTime(fromAtMs, zone)} to ${writeLocalTime(toAtMs, zone)}`)
    .join("; ");
}

export function readBreaks(cell: string, zone: string): CellRead {
  const breaks: Breaks = [];
  for (const entry of entriesOf(cell)) {
    const [from = "", to = "", ...more] = entry.split(/\s+to\s+/i);
    const [begins, ends] = [readLocalTime(from, zone), readLocalTime(to, zone)];
    if ("sentence" in begins) return begins;
    if ("sentence" in ends || more.length > 0)
      return { sentence: `${entry} is no break: write it as 2026-06-20 20:00 to 2026-06-20 20:30` };
    breaks.push({ fromAtMs: begins.atMs, toAtMs: ends.atMs });
  }
  return { said: breaks };
}

/** "180 20": at azimuth 180 something stands up 20 degrees. */
export function writeHorizon(horizon: Horizon): string {
  return horizon.map(({ azimuthDeg, elevationDeg }) => `${azimuthDeg} ${elevationDeg}`).join("; ");
}

export function readHorizon(cell: string): CellRead {
  const horizon: Horizon = [];
  for (const entry of entriesOf(cell)) {
    const figures = entry.split(/\s+/).map(Number);
    const [azimuthDeg = NaN, elevationDeg = NaN] = figures;
    if (figures.length !== 2 || Number.isNaN(azimuthDeg + elevationDeg))
      return { sentence: `${entry} is no part of a horizon: write azimuth and height in degrees as 180 20` };
    horizon.push({ azimuthDeg, elevationDeg });
  }
  return { said: horizon };
}

/** "300 W printer". */
export function writeLoads(loads: Loads): string {
  return loads.map(({ what, watts }) => `${watts} W ${what.replace(/[\\;]/g, "\\$&")}`).join("; ");
}

export function readLoads(cell: string): CellRead {
  const loads: Loads = [];
  for (const entry of entriesOf(cell)) {
    const [, watts = "", what = ""] = /^(\S+)\s*W\s+(.*)$/is.exec(entry) ?? [];
    if (watts === "" || Number.isNaN(Number(watts)))
      return { sentence: `${entry} is no load: write it as 300 W printer` };
    loads.push({ watts: Number(watts), what: what.trim().replace(/\\(.)/gs, "$1") });
  }
  return { said: loads };
}

/** Entries that say something; a ";" after "\" belongs to its entry. */
function entriesOf(cell: string): string[] {
  return (cell.match(/(?:\\.|[^;\\])+/gs) ?? []).map((entry) => entry.trim()).filter((entry) => entry !== "");
}
