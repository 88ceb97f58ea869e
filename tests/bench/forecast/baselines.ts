import type { Evening } from "./evening.ts";
import { shareBefore } from "./eveningShape.ts";
import { nbAtMost, nbQuantiles, type NegativeBinomial } from "./negativeBinomial.ts";

/** The five ways to say what is still to come; the last two are given how evenings of the kind usually go. */
export const baselineNames = [
  "overall average",
  "last hour",
  "exponentially weighted",
  "plan pro rata",
  "ratio to plan",
] as const;
export type BaselineName = (typeof baselineNames)[number];
/** Those who know no shape. */
export const naiveNames: readonly string[] = baselineNames.slice(0, 3);

/** Sheets until the close, on average, and how many times its mean the variance of a count at a known rate is. */
export type Outset = { readonly mean: number; readonly clumping: number };

const hourMs = 3_600_000;
/** A rate seen for a few minutes only is mixed with the plan's, as if that had been seen for so long. */
const planWorthMs = 20 * 60_000;
const halfLifeMs = 30 * 60_000;
/** A ratio to the plan is drawn towards 1 as if so many sheets had come just as planned. */
const planWorthSheets = 10;
/** Sheets come in sessions: mean square over mean of a session's sheets, in means, until some were seen. */
const usualClumping = 1.2;
const usualSheetsPerSession = 1.7;

/** What each baseline says at an instant, from the sessions finished until then. */
export function baselinesAt(evening: Evening, atMs: number): Readonly<Record<BaselineName, Outset>> {
  const { startAtMs, endAtMs, plannedSheets, usualShape } = evening;
  const seen = evening.sessions.filter((session) => session.atMs <= atMs);
  const clumping = clumpingOf(seen, evening.plan.sheetsPerSession ?? usualSheetsPerSession);
  const passedMs = atMs - startAtMs;
  const planRate = plannedSheets / (endAtMs - startAtMs);
  const rateOf = (weightAt: (agoMs: number) => number, weightMs: number) =>
    (seen.reduce((sum, session) => sum + session.sheets * weightAt(atMs - session.atMs), 0) +
      planRate * planWorthMs) /
    (weightMs + planWorthMs);
  const byRate = (rate: number) => ({ mean: rate * (endAtMs - atMs), clumping });
  const decay = halfLifeMs / Math.LN2;
  const before = shareBefore(usualShape, passedMs / (endAtMs - startAtMs));
  const sheets = seen.reduce((sum, session) => sum + session.sheets, 0);
  const ratio = (sheets + planWorthSheets) / (plannedSheets * before + planWorthSheets);
  return {
    "overall average": byRate(rateOf(() => 1, passedMs)),
    "last hour": byRate(rateOf((agoMs) => (agoMs < hourMs ? 1 : 0), Math.min(passedMs, hourMs))),
    "exponentially weighted": byRate(
      rateOf((agoMs) => Math.exp(-agoMs / decay), decay * (1 - Math.exp(-passedMs / decay))),
    ),
    "plan pro rata": { mean: plannedSheets * (1 - before), clumping },
    "ratio to plan": { mean: plannedSheets * (1 - before) * ratio, clumping },
  };
}

function clumpingOf(seen: readonly { readonly sheets: number }[], planned: number): number {
  if (seen.length < 8) return usualClumping * planned;
  const [sum, squares] = [
    seen.reduce((total, { sheets }) => total + sheets, 0),
    seen.reduce((total, { sheets }) => total + sheets ** 2, 0),
  ];
  return squares / sum;
}

/** The distribution around it: `doubt` is how far the level may be off, one standard deviation as a share. */
export function spreadOut({ mean, clumping }: Outset, doubt: number): NegativeBinomial {
  const excess = (clumping - 1) * mean + (doubt * mean) ** 2;
  return { size: excess > 0 ? mean ** 2 / excess : Infinity, mean };
}

/** The forecast in the form that is scored. */
export function saidBy(demand: NegativeBinomial, sheetsLeft: number): Said {
  const [p10 = 0, p50 = 0, p90 = 0] = nbQuantiles(demand, [0.1, 0.5, 0.9]);
  return { p10, p50, p90, lastsChance: sheetsLeft < 0 ? 0 : nbAtMost(demand, sheetsLeft) };
}

/** What is scored of an answer. */
export type Said = {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  readonly lastsChance: number;
};
