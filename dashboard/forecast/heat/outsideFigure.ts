import type { HeatReading, HeatSite } from "./heatSite.ts";
import { guessColderC, surroundingsSdC } from "./openBank.ts";
import { outsideFromHigh } from "./outsideFromHigh.ts";
import { isAirTemperature } from "./whyNotReading.ts";

/** Where the figure for the air outside comes from: the last outside reading, the day's high, or a guess. */
export type OutsideFigure =
  | { readonly from: "reading"; readonly outsideC: number; readonly atMs: number }
  | { readonly from: "dayCurve" }
  | { readonly from: "guess"; readonly outsideC: number };

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
  return { from: "guess", outsideC: before?.from === "reading" ? before.outsideC : insideC - guessColderC };
}

export function outsideAt(figure: OutsideFigure, site: HeatSite, atMs: number): number {
  if (figure.from !== "dayCurve") return figure.outsideC;
  return outsideFromHigh(site.expectedHighC ?? NaN, site, atMs);
}

/** How far off the surroundings may be from a figure that is new, C. */
export function surroundingsSdFor({ from }: OutsideFigure): number {
  return surroundingsSdC[from];
}
