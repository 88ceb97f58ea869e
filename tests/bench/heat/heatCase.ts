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
