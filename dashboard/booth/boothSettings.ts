import type { BoothBox } from "@boothward/shared-types";

/**
 * What set-up says of a booth. Passed in where a figure for people is made, never folded into the state:
 * a changed setting changes what is shown, also of the past.
 */
export type BoothSettings = {
  readonly boothId: string;
  readonly name: string;
  /** A trailer stands outside, in the sun. */
  readonly isTrailer: boolean;
  /** Sheets in a full kit of the one media the business uses. */
  readonly kitSheets: number;
  /** Sheets its printer wastes at a roll change; absent: the usual number. */
  readonly changeWasteSheets?: number;
  /** Warmest the printer may be, as its maker says. */
  readonly limitC: number;
  /** Walls, openings and the printer's place; null: nobody measured them. */
  readonly box: BoothBox | null;
};
