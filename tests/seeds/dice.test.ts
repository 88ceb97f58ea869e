import { expect, test } from "vitest";
import { mulberry32, noise, pick, seededDice } from "../../seeds/dice.ts";

test("mulberry32 from seed 0 begins as published (values from memory)", () => {
  const dice = mulberry32(0);
  expect([dice(), dice(), dice()]).toEqual([0.26642920868471265, 0.0003297457005828619, 0.2232720274478197]);
});

test("the same seed and purpose give the same dice, another purpose others", () => {
  const thrown = (seed: number, purpose: string) => {
    const dice = seededDice(seed, purpose);
    return Array.from({ length: 20 }, () => dice());
  };
  expect(thrown(7, "guests")).toEqual(thrown(7, "guests"));
  expect(thrown(7, "guests")).not.toEqual(thrown(7, "printer"));
  expect(thrown(7, "guests")).not.toEqual(thrown(8, "guests"));
});

test("values are picked as often as their weights say", () => {
  const dice = seededDice(1, "picks");
  const picked = Array.from({ length: 20_000 }, () =>
    pick(dice, [
      ["rare", 1],
      ["common", 3],
    ]),
  );
  // 5,000 expected; four standard deviations are 245.
  const rare = picked.filter((word) => word === "rare").length;
  expect(Math.abs(rare - 5_000)).toBeLessThan(245);
});

test("picking without weights names the total", () => {
  expect(() => pick(mulberry32(1), [["none", 0]])).toThrow("the weights add up to 0");
});

test("noise has mean 0 and the spread asked for", () => {
  const dice = seededDice(2, "noise");
  const drawn = Array.from({ length: 20_000 }, () => noise(dice, 2));
  const mean = drawn.reduce((sum, one) => sum + one, 0) / drawn.length;
  const variance = drawn.reduce((sum, one) => sum + (one - mean) ** 2, 0) / drawn.length;
  // Standard errors: 2/sqrt(20000) = 0.014 for the mean, 2/sqrt(40000) = 0.01 for the deviation; four of each.
  expect(Math.abs(mean)).toBeLessThan(0.057);
  expect(Math.abs(Math.sqrt(variance) - 2)).toBeLessThan(0.04);
});
