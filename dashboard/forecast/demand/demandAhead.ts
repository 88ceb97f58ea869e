/**
 * The demand for sheets from one moment on, as a distribution at each of a row of later instants: what every
 * forecast and every piece of advice about paper is read from. Sessions that the booth can take only, so a
 * line limited by the booth is in it.
 */
export type DemandAhead = {
  readonly atMs: number;
  /** Instants of the steps, `atMs` itself first, then each five-minute bin's end, the last asked for at the end. */
  readonly stepsAtMs: readonly number[];
  /** Mean sheets a session from now on. */
  readonly sheetsPerSession: number;
  /** Whether the evening or earlier ones have taught it anything, or only the plan, or nothing. */
  readonly basis: "learned" | "planned" | "blind";
  /** Chance that the sheets demanded from `atMs` to the step's instant are at most `sheets`. */
  readonly atMost: (step: number, sheets: number) => number;
  /** Sheets demanded up to the step that are not exceeded with the chance `share`, 0 < share < 1. */
  readonly quantile: (step: number, share: number) => number;
  /** Mean sheets demanded up to the step. */
  readonly mean: (step: number) => number;
  /** The same demand if each session from instant `fromAtMs` on took `sheets` on average. */
  readonly withSheetsPerSession: (sheets: number, fromAtMs: number) => DemandAhead;
};
