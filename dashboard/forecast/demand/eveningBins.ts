import type { DemandPlan } from "./demandInput.ts";

/** The evening in bins from the opening on; they run on past the close, as the evening may. */
export type EveningBins = {
  readonly openAtMs: number;
  readonly closeAtMs: number;
  readonly binMs: number;
  /** Bins that begin before the close, at least one. */
  readonly count: number;
};

const fiveMinMs = 5 * 60_000;

/** Two days in bins of five minutes; what is open for longer gets wider bins, so that an answer stays quick. */
const mostBins = 576;

/** The bins of a plan; a close that is not after the opening is taken as one bin after it. */
export function eveningBins({ openAtMs, closeAtMs }: DemandPlan): EveningBins {
  const lengthMs = Math.max(fiveMinMs, closeAtMs - openAtMs);
  const binMs = fiveMinMs * Math.ceil(lengthMs / fiveMinMs / mostBins);
  return { openAtMs, closeAtMs: openAtMs + lengthMs, binMs, count: Math.ceil(lengthMs / binMs) };
}

/** The bin that what happens at an instant falls into: a bin owns its end, so that a session at an ask's instant counts. */
export function binOfChange({ openAtMs, binMs }: EveningBins, atMs: number): number {
  return Math.max(0, Math.ceil((atMs - openAtMs) / binMs) - 1);
}

export function binStartMs({ openAtMs, binMs }: EveningBins, bin: number): number {
  return openAtMs + bin * binMs;
}
