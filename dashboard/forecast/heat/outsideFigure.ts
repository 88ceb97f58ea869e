import type { HeatReading, HeatSite } from "./heatSite.ts";
import { guessColderC, surroundingsSdC } from "./openBank.ts";
import { outsideFromHigh } from "./outsideFromHigh.ts";
import { isAirTemperature } from "./whyNotReading.ts";

/** Where the figure for the air outside comes from: the last outside reading, the day's high, or a guess. */
export type OutsideFigure =
  | { readonly from: "reading"; readonly outsideC: number; readonly atMs: number }
  | { readonly from: "dayCurve" }
  | { readonly from: "guess"; readonly outsideC: number };

/** How much of the usual day's rise and fall is counted on after a reading. */
const followsDay = 0.4;

/** An outside reading older than this is no longer held to. */
const holdsMs = 3 * 3_600_000;

/** The figure after a reading; what is no air temperature counts as not known. */
export function outsideAfter(
  before: OutsideFigure | null,
  { atMs, insideC, outsideC }: HeatReading,
  site: HeatSite,
): OutsideFigure {
  if (outsideC !== null && isAirTemperature(outsideC)) return { from: "reading", outsideC, atMs };
  if (before?.from === "reading" && atMs - before.atMs <= holdsMs) return before;
  if (site.expectedHighC !== null) return { from: "dayCurve" };
  if (before?.from === "guess") return before;
  const guessC = before?.from === "reading" ? before.outsideC : insideC - guessColderC;
  return { from: "guess", outsideC: guessC };
}

export function outsideAt(figure: OutsideFigure, site: HeatSite, atMs: number): number {
  if (figure.from === "dayCurve") return outsideFromHigh(site.expectedHighC ?? NaN, site, atMs);
  if (figure.from === "guess") return figure.outsideC;
  const usualC = outsideFromHigh(0, site, atMs) - outsideFromHigh(0, site, figure.atMs);
  return figure.outsideC + followsDay * usualC;
}

/** How far off the surroundings may be from a figure that is new, C. */
export function surroundingsSdFor({ from }: OutsideFigure): number {
  return surroundingsSdC[from];
}
