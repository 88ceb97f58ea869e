import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nbAtMost, nbQuantiles } from "../../../bench/forecast/negativeBinomial.ts";

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

// Source: SciPy, computed independently: 12 counts in .3 h on a Gamma(4, .1) belief, predict .7 h.
it("says what a rate learned from counts brings: mean 28, 17/27/40 and P(<= 30) = .6418412068", () => {
  const shape = 4 + 12;
  const demand = { size: shape, mean: (shape / (0.1 + 0.3)) * 0.7 };
  expect(demand.mean).toBeCloseTo(28, 10);
  expect(nbQuantiles(demand, [0.1, 0.5, 0.9])).toEqual([17, 27, 40]);
  expect(nbAtMost(demand, 30)).toBeCloseTo(0.6418412068, 9);
});
