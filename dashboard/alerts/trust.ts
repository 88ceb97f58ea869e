import type { Matter, Severity } from "@boothward/shared-types";

/** How far alerts of what is only foreseen are trusted. */
export type Trust = {
  /** They are said as this at most. */
  readonly forecastCap: Severity;
  /** By how much the chance from which each is said moves, as a difference of log odds; 0 where left out. */
  readonly shifts: Readonly<Partial<Record<Matter, number>>>;
};

/** How alerts of one matter did at events that are over. */
export type Score = {
  readonly raised: number;
  /** Of those: nothing came of it, and nobody had done anything about it. */
  readonly false: number;
  /** What came without having been said. */
  readonly missed: number;
};

/** For so many events a business gets to know its forecasts before they call anybody at once. */
export const newForEvents = 3;

/** Two of three that are said should come true: fewer and people stop listening. Our own choice. */
const bearableFalse = 1 / 3;

/** Of ten that are said or should have been, one may come unsaid. Our own choice. */
const bearableMissed = 1 / 10;

/** As if so many alerts had gone as they should: a single evening moves little. */
const priorAlerts = 4;

/** From the bearable to all of them wrong moves the log odds by about two thirds of this. */
const gain = 1.5;

/** Chances of 30 % become 18 to 46 %, no less and no more, whatever the record says. */
export const mostShift = 0.7;

/** Trust after so many closed events, with the score of each matter. Pure; a missing score moves nothing. */
export function trustOf(closedEvents: number, scores: Readonly<Partial<Record<Matter, Score>>>): Trust {
  const isNew = closedEvents < newForEvents;
  const shifts = isNew
    ? []
    : Object.entries(scores).map(([matter, score]) => [matter, shiftOf(score)] as const);
  return { forecastCap: isNew ? "plan" : "actNow", shifts: Object.fromEntries(shifts) };
}

/** Positive: a higher chance is needed before it is said. */
export function shiftOf(score: Score): number {
  const { raised, missed } = score;
  const falseShare = (score.false + priorAlerts * bearableFalse) / (raised + priorAlerts);
  const missedShare = (missed + priorAlerts * bearableMissed) / (raised + missed + priorAlerts);
  const shift = gain * (falseShare - bearableFalse) - gain * (missedShare - bearableMissed);
  return Math.min(mostShift, Math.max(-mostShift, shift));
}

/** The chance from which a matter is said, moved by what is known of its record. */
export function neededChance(usual: number, matter: Matter, trust: Trust): number {
  const shift = trust.shifts[matter] ?? 0;
  if (shift === 0) return usual;
  return 1 / (1 + Math.exp(-Math.log(usual / (1 - usual)) - shift));
}
