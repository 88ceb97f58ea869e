import { copyBank } from "./bank.ts";
import { surroundingsOf, type HeatRun, type HeatState } from "./heatRun.ts";
import { fanSteps, lookAhead, moveOn, stepMin } from "./lookAhead.ts";
import { chanceBelow, mixtureOf, mixtureQuantile, voicesOf, type Mixture } from "./mixture.ts";
import { asSaid, rescaleAt, type Rescale } from "./ownErrors.ts";

/** Temperature at the thermometer so many minutes after the ask, C. */
export type HeatPoint = {
  readonly minutes: number;
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
};

/**
 * The next hour. `fan` has a point each five minutes from the ask on, `points` those at 15, 30 and 60.
 * `crossChance60`: that the limit is passed within the hour; `crossAtMs`: when the middle course passes it, now when
 * it is passed already. Both null without a limit, the instant also when the middle course does not pass it.
 * `basis`: how much it rests on; with `notEnoughData` the band is wide and no page should make it a forecast.
 */
export type HeatAhead = {
  readonly atMs: number;
  readonly points: readonly HeatPoint[];
  readonly fan: readonly HeatPoint[];
  readonly crossChance60: number | null;
  readonly crossAtMs: number | null;
  readonly basis: "enoughData" | "notEnoughData";
};

const minuteMs = 60_000;
/** Before so many readings, over so many minutes, nothing is known of how the booth moves. */
const leastReadings = 3;
const leastSpanMs = 10 * minuteMs;
/** Readings older than this say too little of the next hour. */
const staleMs = 3 * 60 * minuteMs;

/**
 * The next hour's temperature from all readings so far; null before the first. Asking changes nothing. `rescales`
 * off leaves the bank's own word as it is, for a trial.
 */
export function forecastHeat(run: HeatRun, atMs: number, rescales = true): HeatAhead | null {
  const { state } = run;
  if (state === null) return null;
  const fromMs = Math.max(atMs, state.last.atMs);
  const around = surroundingsOf(run, state.outside);
  const bank = copyBank(state.bank);
  const nowC = mixtureOf(bank, voicesOf(bank)).meanC;
  moveOn(bank, state.last.atMs, fromMs, around);
  const ageMin = (fromMs - state.last.atMs) / minuteMs;
  const said = lookAhead(bank, fromMs, around).map((mixture, step) =>
    rescaled(mixture, nowC, rescales && step > 0 ? rescaleAt(state.errors, ageMin + step * stepMin) : asSaid),
  );
  const fan = said.map((mixture, step) => pointOf(mixture, step * stepMin));
  return {
    ...{ atMs, fan, points: [3, 6, fanSteps].map((step) => fan[step]!) },
    ...crossing(run.site.limitC, said, fan, fromMs),
    basis: hasEnough(state, atMs) ? "enoughData" : "notEnoughData",
  };
}

function hasEnough({ taken, first, last }: HeatState, atMs: number): boolean {
  return taken >= leastReadings && last.atMs - first.atMs >= leastSpanMs && atMs - last.atMs <= staleMs;
}

/** The mixture stretched around its mean, and its move from what it is at the last reading made larger or smaller. */
function rescaled(mixture: Mixture, nowC: number, { spread, move }: Rescale): Mixture {
  const meanC = nowC + move * (mixture.meanC - nowC);
  return {
    weights: mixture.weights,
    means: mixture.means.map((each) => meanC + spread * (each - mixture.meanC)),
    sds: mixture.sds.map((each) => spread * each),
    meanC,
    sdC: spread * mixture.sdC,
  };
}

function pointOf(mixture: Mixture, minutes: number): HeatPoint {
  const [p10, p50, p90] = [0.1, 0.5, 0.9].map((share) => mixtureQuantile(mixture, share)) as [
    number,
    number,
    number,
  ];
  return { minutes, p10, p50, p90 };
}

function crossing(
  limitC: number | null,
  said: readonly Mixture[],
  fan: readonly HeatPoint[],
  fromMs: number,
): Pick<HeatAhead, "crossChance60" | "crossAtMs"> {
  if (limitC === null) return { crossChance60: null, crossAtMs: null };
  const chance = Math.max(...said.map((mixture) => 1 - chanceBelow(mixture, limitC)));
  const step = fan.findIndex(({ p50 }) => p50 > limitC);
  return {
    crossChance60: calibrated(chance),
    crossAtMs: step === -1 ? null : crossedAtMs(limitC, fan, step, fromMs),
  };
}

/** The limit is also passed between the steps, by what wavers about them: the odds are so much higher. Fitted. */
const oddsTimes = 1.35;

function calibrated(chance: number): number {
  return (oddsTimes * chance) / (1 - chance + oddsTimes * chance);
}

function crossedAtMs(limitC: number, fan: readonly HeatPoint[], step: number, fromMs: number): number {
  const [before, after] = [fan[step - 1], fan[step]!];
  if (before === undefined) return fromMs;
  const share = (limitC - before.p50) / (after.p50 - before.p50);
  return fromMs + (step - 1 + share) * stepMin * minuteMs;
}
