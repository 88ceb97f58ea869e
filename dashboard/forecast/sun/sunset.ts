import { sunDay } from "./sunDay.ts";
import type { Place } from "./sunPosition.ts";

export type { Place } from "./sunPosition.ts";

/** Sunset at a place on the local day of an instant, as Unix ms; null where the sun does not set that day. */
export function sunsetAtMs(place: Place, atMs: number, zone: string): number | null {
  return sunDay(place, atMs, zone).setAtMs;
}
