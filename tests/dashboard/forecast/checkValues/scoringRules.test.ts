import { describe, expect, it } from "vitest";
import { nbAtMost, nbQuantiles } from "../../../bench/forecast/negativeBinomial.ts";
import {
  baseRateScore,
  brierScore,
  calibrationError,
  quantileScore,
} from "../../../bench/forecast/scores.ts";

/** By size and probability, as statistics packages take them. */
const nb = (size: number, prob: number) => ({ size, mean: (size * (1 - prob)) / prob });

// Source: test suite of the R package scoringRules, crps_nbinom (y, size, prob).
const publishedCrps = [
  [5, 100, 0.95, 0.53215257681],
  [44, 200.1, 0.82, 1.70859687251],
  [41, 200.1, 0.83, 1.63833674721],
  [222, 2000.1, 0.9, 3.66926727576],
  [2222, 20000.1, 0.9, 11.6114812752],
] as const;

describe("the continuous ranked probability score of the negative binomial", () => {
  // Its definition: the squared distance between the distribution and the step at what came.
  it.each(publishedCrps.slice(0, 4))(
    "of y = %f, size %f, prob %f is the sum over its distribution",
    (y, size, prob, published) => {
      const demand = nb(size, prob);
      let crps = 0;
      for (let k = 0; k < 12 * demand.mean + 100; k += 1)
        crps += (nbAtMost(demand, k) - (k >= y ? 1 : 0)) ** 2;
      expect(crps).toBeCloseTo(published, 8);
    },
  );

  // Source: Gneiting and Raftery 2007, the score is twice the mean quantile score over all levels.
  it.each(publishedCrps)(
    "of y = %f, size %f, prob %f is twice the mean of the quantile scores",
    (y, size, prob, published) => {
      const levels = Array.from({ length: 20_000 }, (_, at) => (at + 0.5) / 20_000);
      const quantiles = nbQuantiles(nb(size, prob), levels);
      const scores = levels.map((level, at) => quantileScore(quantiles[at] ?? Number.NaN, y, level));
      const crps = (2 * scores.reduce((sum, score) => sum + score, 0)) / levels.length;
      expect(Math.abs(crps / published - 1)).toBeLessThan(1e-3);
    },
  );
});

describe("the quantile score", () => {
  // Source: test suite of the R package scoringRules, qs_quantiles.
  it("is .1 for 0 said at 10 % when 1 came, and .9 when -1 came", () => {
    expect(quantileScore(0, 1, 0.1)).toBeCloseTo(0.1, 12);
    expect(quantileScore(0, -1, 0.1)).toBeCloseTo(0.9, 12);
  });

  // Source: the same, ints_quantiles; an interval's score is that of its two ends times 2 / (1 - level).
  it.each([
    [1, 2],
    [2, 12],
  ])("makes the interval score of [-1, 1] at 80 %% when %i came %i", (came, published) => {
    const score = (2 / 0.2) * (quantileScore(-1, came, 0.1) + quantileScore(1, came, 0.9));
    expect(score).toBeCloseTo(published, 12);
  });

  it("is least for the true quantile of a Poisson demand", () => {
    const demand = { size: Infinity, mean: 10 };
    const expectedScore = (quantile: number) => {
      let score = 0;
      for (let k = 0; k < 60; k += 1)
        score += (nbAtMost(demand, k) - nbAtMost(demand, k - 1)) * quantileScore(quantile, k, 0.9);
      return score;
    };
    // SciPy: the 90 % quantile of Poisson(10) is 14.
    for (const other of [10, 12, 13, 15, 16, 18])
      expect(expectedScore(14)).toBeLessThan(expectedScore(other));
  });
});

describe("the scores of chances", () => {
  const said = (chance: number, ...came: number[]) => came.map((one) => ({ chance, came: one === 1 }));

  // Worked by hand: (0.1^2 + 0.2^2 + 0.9^2) / 3.
  it("is Brier's mean squared distance", () => {
    expect(brierScore([...said(0.9, 1), ...said(0.2, 0), ...said(0.1, 1)])).toBeCloseTo(0.86 / 3, 12);
  });

  it("of the base rate is what naming the share each time would get", () => {
    const quarter = said(0.25, 1, 0, 0, 0);
    expect(baseRateScore(quarter)).toBeCloseTo(brierScore(quarter), 12);
    expect(baseRateScore(quarter)).toBeCloseTo(0.1875, 12);
  });

  it("have no calibration error when each class comes as often as it was named", () => {
    expect(calibrationError([...said(0.25, 1, 0, 0, 0), ...said(0.75, 1, 1, 1, 0)])).toBeCloseTo(0, 12);
  });

  // Worked by hand: 4 of 6 are off by 0.25, 2 of 6 by 0.5.
  it("weigh the error of each class by how often it was named", () => {
    const error = calibrationError([...said(0.25, 0, 0, 0, 0), ...said(1, 1, 0)]);
    expect(error).toBeCloseTo((4 * 0.25 + 2 * 0.5) / 6, 12);
  });
});
