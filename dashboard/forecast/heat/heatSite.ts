import type { OpeningView, SunSite } from "../sun/boothFrame.ts";

/** What one thermometer's forecast is told once: where it is, and what lets the sun in. */
export type HeatSite = SunSite & {
  readonly views: readonly OpeningView[];
  /** Above this the printer must not be; null when nobody said. */
  readonly limitC: number | null;
  /** The day's high out of doors, as the run sheet expects it; used while no outside reading is there. */
  readonly expectedHighC: number | null;
};

/** One reading of the booth's thermometer, with the air outside when that is known. */
export type HeatReading = {
  readonly atMs: number;
  readonly insideC: number;
  readonly outsideC: number | null;
};
