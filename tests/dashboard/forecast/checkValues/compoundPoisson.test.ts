import { describe, expect, it } from "vitest";
import { demandAheadOf } from "../../../../dashboard/forecast/demand/demandAheadOf.ts";
import { nbAtMost, nbQuantiles } from "../../../bench/forecast/negativeBinomial.ts";
import { spreadOut } from "../../../bench/forecast/baselines.ts";

/** Sixty sessions are expected; of each the chance of taking 1, 2, 3 or 4 sheets. */
const expected = 60;
const takes = [0.3, 0.45, 0.15, 0.1];
const meanTake = 2.05;
const meanSquareTake = 5.05;

/**
 * The chances of 0, 1, 2 ... sheets.
 *
 * Source: Panjer's recursion (1981) for a Poisson number: p(s) = L / s * sum of k f(k) p(s - k).
 */
function panjer(most: number): number[] {
  const chances = [Math.exp(-expected)];
  for (let sheets = 1; sheets <= most; sheets += 1)
    chances.push(
      (expected / sheets) *
        takes.reduce((sum, share, at) => sum + (at + 1) * share * (chances[sheets - at - 1] ?? 0), 0),
    );
  return chances;
}

const atMostExactly = (sheets: number) => panjer(sheets).reduce((sum, chance) => sum + chance, 0);

/** What the forecast says when it knows the rate and the sheets a session for certain. */
function forecastOfKnownRate() {
  const guesses = 240;
  const upTo = new Float64Array(2 * guesses).fill(expected, guesses);
  const sheets = { mean: meanTake, meanSd: 0, variance: meanSquareTake - meanTake ** 2 };
  return demandAheadOf({ stepsAtMs: [0, 1], guesses, upTo, varianceUpTo: upTo }, sheets, "learned");
}

// Source of 123, 303, 101/123/146 and .8426599445: Panjer's recursion, computed independently.
describe("sheets of sixty sessions that take one to four", () => {
  it("follow Panjer's recursion to its published values", () => {
    expect(atMostExactly(140)).toBeCloseTo(0.8426599445, 9);
    for (const [share, quantile] of [
      [0.1, 101],
      [0.5, 123],
      [0.9, 146],
    ] as const) {
      expect(atMostExactly(quantile)).toBeGreaterThanOrEqual(share);
      expect(atMostExactly(quantile - 1)).toBeLessThan(share);
    }
  });

  it("are forecast within a sheet and within a hundredth of a chance", () => {
    const ahead = forecastOfKnownRate();
    // The fewest whole sheets that are enough with that chance.
    const wholeQuantile = (share: number) => Math.ceil(ahead.quantile(1, share));
    expect(ahead.mean(1)).toBeCloseTo(123, 8);
    expect(Math.abs(wholeQuantile(0.1) - 101)).toBeLessThanOrEqual(1);
    expect(Math.abs(wholeQuantile(0.5) - 123)).toBeLessThanOrEqual(1);
    expect(Math.abs(wholeQuantile(0.9) - 146)).toBeLessThanOrEqual(1);
    for (const sheets of [90, 100, 110, 120, 130, 140, 150, 160])
      expect(Math.abs(ahead.atMost(1, sheets) - atMostExactly(sheets))).toBeLessThan(0.01);
    expect(ahead.atMost(1, 140)).toBeCloseTo(0.8426599445, 2);
  });

  it("are spread by the baselines' variance as wide, to a sheet and to a hundredth", () => {
    const baseline = spreadOut({ mean: 123, clumping: meanSquareTake / meanTake }, 0);
    expect(baseline.mean + baseline.mean ** 2 / baseline.size).toBeCloseTo(303, 8);
    const quantiles = nbQuantiles(baseline, [0.1, 0.5, 0.9]);
    [101, 123, 146].forEach((exact, at) =>
      expect(Math.abs((quantiles[at] ?? Number.NaN) - exact)).toBeLessThanOrEqual(1),
    );
    expect(nbAtMost(baseline, 140)).toBeCloseTo(0.8426599445, 2);
  });
});
