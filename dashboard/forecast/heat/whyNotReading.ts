import type { HeatReading } from "./heatSite.ts";

/** Why a reading is left out, in words of code; a `spike` may be taken up again when the next ones agree with it. */
export type ReadingFault = "powerOnValue" | "noAirTemperature" | "outOfOrder" | "spike" | "stuck";

/** What common one-wire thermometers say before their first measurement. Source: their data sheets. */
const powerOnC = 85;

/**
 * No booth is colder or hotter than this, C: a closed car in the sun stays below 65. A figure above was most likely
 * typed or sent in Fahrenheit; it is left out and not turned into Celsius, since that is a guess too.
 */
const coldestC = -40;
const hottestC = 65;

/** Why a reading cannot be the air's, from itself and the instant of the last one; null when it can. */
export function whyNotReading({ atMs, insideC }: HeatReading, lastAtMs: number | null): ReadingFault | null {
  if (insideC === powerOnC) return "powerOnValue";
  if (!isAirTemperature(insideC)) return "noAirTemperature";
  return lastAtMs !== null && atMs <= lastAtMs ? "outOfOrder" : null;
}

export function isAirTemperature(degC: number): boolean {
  return degC >= coldestC && degC <= hottestC;
}
