import type { HeatReading, HeatSite } from "../../../dashboard/forecast/heat/heatSite.ts";

/** One stretch of readings that a forecast is tried on, and what came. */
export type HeatCase = {
  readonly family: string;
  readonly site: HeatSite & { readonly limitC: number };
  /** As the thermometer gave them, faults and all. */
  readonly readings: readonly HeatReading[];
  readonly asksAtMs: readonly number[];
  /** The thermometer's true temperature at an instant; null where nobody knows it. */
  readonly cameC: (atMs: number) => number | null;
};

const minuteMs = 60_000;
const askEveryMin = 10;

/** Instants to ask at, ten minutes apart, from one minute after `fromMs` to another. */
export function asksBetween(fromMs: number, firstMin: number, lastMin: number): number[] {
  return Array.from(
    { length: Math.floor((lastMin - firstMin) / askEveryMin) + 1 },
    (_, at) => fromMs + (firstMin + at * askEveryMin) * minuteMs,
  );
}
