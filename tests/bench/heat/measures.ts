import { brierScore, mean, quantileScore } from "../forecast/scores.ts";
import { baselineNames, type BaselineName } from "./baselines.ts";
import { baselineChance, horizons, type Asked, type Horizon, type Tried } from "./tryCase.ts";

/** How a family did: each figure of the program over the best baseline of that cell, chosen in hindsight. */
export type FamilyMeasures = {
  readonly family: string;
  readonly cases: number;
  /** By horizon; NaN where nobody knows what came. */
  readonly rmseC: readonly number[];
  readonly rmseRatio: readonly number[];
  readonly pinballRatio: readonly number[];
  readonly bestBaseline: readonly string[];
  readonly brierRatio: number;
  readonly brier: number;
  readonly coverage: number;
};

export function familyMeasures(tried: readonly Tried[]): FamilyMeasures[] {
  const names = [...new Set(tried.map(({ family }) => family))];
  return names.map((name) =>
    measuresOf(
      name,
      tried.filter(({ family }) => family === name),
    ),
  );
}

function measuresOf(family: string, tried: readonly Tried[]): FamilyMeasures {
  const asked = tried.flatMap((one) => one.asked);
  const cells = horizons.map((minutes) => cellOf(asked.filter((one) => one.minutes === minutes)));
  const limits = tried.flatMap((one) => one.limits);
  const brier = brierScore(limits.map(({ chance, passed }) => ({ chance, came: passed })));
  const briers = baselineNames.map((name) => {
    const sdsC = cells.map(({ errorsC }) => rmsOf(errorsC[name]));
    const known = sdsC.map((sdC, at) => (Number.isNaN(sdC) ? -1 : at)).filter((at) => at >= 0);
    return brierScore(
      limits.map(({ roomC, passed }) => ({
        chance: baselineChance(
          known.map((at) => roomC[name][at]!),
          known.map((at) => sdsC[at]!),
        ),
        came: passed,
      })),
    );
  });
  return {
    family,
    cases: tried.length,
    rmseC: cells.map(({ rmseC }) => rmseC),
    rmseRatio: cells.map(({ rmseRatio }) => rmseRatio),
    pinballRatio: cells.map(({ pinballRatio }) => pinballRatio),
    bestBaseline: cells.map(({ best }) => best),
    brier,
    // Where all pass or none does there is nothing to tell apart.
    brierRatio: new Set(limits.map(({ passed }) => passed)).size === 2 ? brier / Math.min(...briers) : NaN,
    coverage: mean(asked.map(({ said, cameC }) => (cameC >= said.p10 && cameC <= said.p90 ? 1 : 0))),
  };
}

function cellOf(asked: readonly Asked[]) {
  const errorsC = Object.fromEntries(
    baselineNames.map((name) => [name, asked.map(({ cameC, baselines }) => cameC - baselines[name])]),
  ) as Record<BaselineName, number[]>;
  const rmses = baselineNames.map((name) => rmsOf(errorsC[name]));
  const rmseC = rmsOf(asked.map(({ cameC, said }) => cameC - said.p50));
  const pinball = mean(asked.map(({ cameC, said }) => pinballOf(said.p10, said.p50, said.p90, cameC)));
  const pinballs = baselineNames.map((name) => hindsightPinball(errorsC[name]));
  const least = Math.min(...rmses);
  return {
    ...{ errorsC, rmseC, rmseRatio: rmseC / least, pinballRatio: pinball / Math.min(...pinballs) },
    best: baselineNames[rmses.indexOf(least)] ?? "-",
  };
}

/** A baseline with the band that its own errors would have given it. */
function hindsightPinball(errorsC: readonly number[]): number {
  const sorted = [...errorsC].sort((a, b) => a - b);
  const at = (share: number) => sorted[Math.round(share * (sorted.length - 1))] ?? NaN;
  const [low, high] = [at(0.1), at(0.9)];
  return mean(errorsC.map((error) => pinballOf(low, 0, high, error)));
}

function pinballOf(p10: number, p50: number, p90: number, came: number): number {
  return (quantileScore(p10, came, 0.1) + quantileScore(p50, came, 0.5) + quantileScore(p90, came, 0.9)) / 3;
}

function rmsOf(errors: readonly number[]): number {
  return Math.sqrt(mean(errors.map((error) => error * error)));
}

/** NaN is left out: a family in which nobody knows. */
export function geometricMean(values: readonly number[]): number {
  return Math.exp(mean(values.filter((value) => !Number.isNaN(value)).map(Math.log)));
}

export function rmseOver(one: readonly FamilyMeasures[], other: readonly FamilyMeasures[]): number {
  return geometricMean(
    one.flatMap(({ rmseC }, at) => rmseC.map((each, cell) => each / (other[at]?.rmseC[cell] ?? NaN))),
  );
}

export function byHorizon(
  pick: (of: FamilyMeasures) => readonly number[],
  families: readonly FamilyMeasures[],
) {
  return horizons.map((minutes: Horizon, at) => ({
    minutes,
    ratio: geometricMean(families.map((family) => pick(family)[at] ?? NaN)),
  }));
}
