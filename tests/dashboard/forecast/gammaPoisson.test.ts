import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  beliefOfPlan,
  demandIn,
  nbAtMost,
  nbQuantiles,
  perHourOf,
  runOutChance,
  withSeen,
} from "../../../dashboard/forecast/index.ts";

/** By size and probability, as statistics packages take them. */
const nb = (size: number, prob: number) => ({ size, mean: (size * (1 - prob)) / prob });

describe("the negative binomial", () => {
  // Source: SciPy, computed independently (npm @stdlib agrees).
  it.each([
    ["NB(3, .25)", nb(3, 0.25), [2, 8, 17]],
    ["NB(5, .1)", nb(5, 0.1), [21, 42, 73]],
    ["NB(2.5, .05)", nb(2.5, 0.05), [14, 41, 89]],
    ["Poisson(10)", { size: Infinity, mean: 10 }, [6, 10, 14]],
  ])("%s has its published 10, 50 and 90 %% points", (_, distribution, expected) => {
    expect(nbQuantiles(distribution, [0.1, 0.5, 0.9])).toEqual(expected);
  });

  // Source: SciPy, computed independently.
  it("gives P(X <= 10) = .58303975 for Poisson(10)", () => {
    expect(nbAtMost({ size: Infinity, mean: 10 }, 10)).toBeCloseTo(0.58303975, 8);
  });

  it("is near the Poisson distribution for a large size", () => {
    expect(nbAtMost({ size: 1e9, mean: 10 }, 10)).toBeCloseTo(nbAtMost({ size: Infinity, mean: 10 }, 10), 6);
  });

  it("is certain of nothing below zero and of everything when none are expected", () => {
    expect(nbAtMost({ size: 3, mean: 9 }, -1)).toBe(0);
    expect(nbAtMost({ size: 3, mean: 0 }, 0)).toBe(1);
    expect(nbQuantiles({ size: 3, mean: 0 }, [0.1, 0.9])).toEqual([0, 0]);
  });

  it("holds up where P(0) is too small for a number", () => {
    const busy = { size: 900, mean: 4000 };
    const [low = 0, middle = 0, high = 0] = nbQuantiles(busy, [0.1, 0.5, 0.9]);
    expect(nbAtMost(busy, middle)).toBeGreaterThanOrEqual(0.5);
    expect(nbAtMost(busy, middle - 1)).toBeLessThan(0.5);
    expect(low).toBeLessThan(middle);
    expect(high).toBeGreaterThan(middle);
  });

  it("rises with k, falls with the mean, and its quantiles are where it first reaches the share", () => {
    const size = fc.oneof(fc.double({ min: 0.2, max: 500, noNaN: true }), fc.constant(Infinity));
    const mean = fc.double({ min: 0.01, max: 600, noNaN: true });
    fc.assert(
      fc.property(
        size,
        mean,
        fc.nat(700),
        fc.double({ min: 0.02, max: 0.98, noNaN: true }),
        (s, m, k, share) => {
          const atK = nbAtMost({ size: s, mean: m }, k);
          expect(atK).toBeGreaterThanOrEqual(nbAtMost({ size: s, mean: m }, k - 1));
          expect(atK).toBeGreaterThanOrEqual(nbAtMost({ size: s, mean: m * 1.3 }, k) - 1e-9);
          const [quantile = 0] = nbQuantiles({ size: s, mean: m }, [share]);
          expect(nbAtMost({ size: s, mean: m }, quantile)).toBeGreaterThanOrEqual(share);
          expect(nbAtMost({ size: s, mean: m }, quantile - 1)).toBeLessThan(share);
        },
      ),
    );
  });
});

describe("a rate learned from counts", () => {
  // Source: SciPy, computed independently: Gamma(4, .1) prior, 12 counts in exposure .3, predict .7.
  it("predicts mean 28, 10/50/90 % points 17/27/40 and P(<= 30) = .6418412068", () => {
    const demand = demandIn(withSeen({ shape: 4, hours: 0.1 }, 12, 0.3), 0.7);
    expect(demand.mean).toBeCloseTo(28, 10);
    expect(nbQuantiles(demand, [0.1, 0.5, 0.9])).toEqual([17, 27, 40]);
    expect(nbAtMost(demand, 30)).toBeCloseTo(0.6418412068, 9);
  });

  // Source: computed independently (SciPy). Plan 45/h, cv 0.4, 84 sheets in 1.5 h.
  const learned = withSeen(beliefOfPlan(45, 0.4), 84, 1.5);

  it("is 55.07 +- 5.80 sheets an hour after 84 in 1.5 h against a plan of 45", () => {
    expect(perHourOf(learned)).toBeCloseTo(55.07, 2);
    expect(Math.sqrt(learned.shape) / learned.hours).toBeCloseTo(5.8, 2);
  });

  it.each([
    [110, 0.941],
    [130, 0.659],
    [150, 0.256],
    [170, 0.05],
    [190, 0.005],
  ])("runs out of %i sheets in 2.5 h with a chance of %f", (sheets, expected) => {
    expect(runOutChance(demandIn(learned, 2.5), sheets)).toBeCloseTo(expected, 3);
  });

  it("empties 130 sheets after 1.89, 2.36 and 2.97 h at 5, 50 and 95 %", () => {
    const hoursUntil = (share: number) => {
      let [low, high] = [0, 10];
      for (let step = 0; step < 60; step += 1) {
        const middle = (low + high) / 2;
        if (runOutChance(demandIn(learned, middle), 130) >= share) high = middle;
        else low = middle;
      }
      return high;
    };
    expect([0.05, 0.5, 0.95].map((share) => hoursUntil(share).toFixed(2))).toEqual(["1.89", "2.36", "2.97"]);
  });

  it("is surely out with nothing left, and never with nothing asked for", () => {
    expect(runOutChance(demandIn(learned, 1), 0)).toBe(1);
    expect(runOutChance(demandIn(learned, 0), 1)).toBe(0);
  });
});

describe("clumping and drift", () => {
  const belief = { shape: 8, hours: 0.2 };

  it("leave the mean and give the variance they say", () => {
    const { size, mean } = demandIn(belief, 2, { clumping: 2.5, drift: 0.3 });
    expect(mean).toBeCloseTo(80, 10);
    expect(mean + mean ** 2 / size).toBeCloseTo(2.5 * 80 + 80 ** 2 * (1 / 8 + 0.09), 6);
  });

  // Closed form against a seeded simulation: a gamma rate of whole shape is a sum of exponential draws.
  it("agree with simulated evenings of known mean rate at clumping 1", () => {
    const dice = seeded(20260620);
    const exponential = () => -Math.log(1 - dice());
    const evenings = 20_000;
    let atMost = 0;
    for (let evening = 0; evening < evenings; evening += 1) {
      let gamma = 0;
      for (let step = 0; step < 8; step += 1) gamma += exponential();
      const mean = (gamma / 0.2) * 0.5;
      let [count, time] = [0, exponential()];
      while (time < mean) [count, time] = [count + 1, time + exponential()];
      if (count <= 24) atMost += 1;
    }
    expect(atMost / evenings).toBeCloseTo(nbAtMost(demandIn(belief, 0.5), 24), 2);
  });
});

/** mulberry32, a small public-domain generator. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}
