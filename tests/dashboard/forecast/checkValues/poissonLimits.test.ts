import { describe, expect, it } from "vitest";
import { nbAtMost } from "../../../bench/forecast/negativeBinomial.ts";

const poisson = (mean: number) => ({ size: Infinity, mean });

/** The mean at which the chance, which falls as the mean rises, is `share`. */
function meanWhere(chance: (mean: number) => number, share: number): number {
  let [low, high] = [0, 200];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (chance(middle) > share) low = middle;
    else high = middle;
  }
  return low;
}

// Source: Garwood, Fiducial limits for the Poisson distribution (1936), as forecast tables quote it: 95 %.
describe("the exact limits of a Poisson mean", () => {
  it.each([
    [25, 16.18, 36.9, 2],
    [10, 4.795, 18.39, 3],
  ])("after %i were counted are %f and %f", (count, lower, upper, digits) => {
    expect(meanWhere((mean) => nbAtMost(poisson(mean), count - 1), 0.975)).toBeCloseTo(lower, digits);
    expect(meanWhere((mean) => nbAtMost(poisson(mean), count), 0.025)).toBeCloseTo(upper, digits);
  });

  it("after none was counted reach to 3.689", () => {
    expect(meanWhere((mean) => nbAtMost(poisson(mean), 0), 0.025)).toBeCloseTo(3.689, 3);
  });
});
