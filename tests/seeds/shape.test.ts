import { expect, test } from "vitest";
import { heightAt, peakOf, type Shape } from "../../seeds/shape.ts";

const shape: Shape = [
  [-60, 10],
  [0, 30],
  [30, 0],
];

test("a shape is straight between its points and level outside them", () => {
  expect([-90, -60, -30, 0, 15, 30, 90].map((atMin) => heightAt(shape, atMin))).toEqual([
    10, 10, 20, 30, 15, 0, 0,
  ]);
  expect(peakOf(shape)).toBe(30);
});

test("a shape without points is refused", () => {
  expect(() => heightAt([], 0)).toThrow("at least one point");
});
