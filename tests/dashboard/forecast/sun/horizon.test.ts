import { describe, expect, it } from "vitest";
import { horizonAt } from "../../../../dashboard/forecast/sun/horizon.ts";

const hills = [
  { azimuthDeg: 350, elevationDeg: 10 },
  { azimuthDeg: 90, elevationDeg: 4 },
  { azimuthDeg: 10, elevationDeg: 20 },
];

describe("the horizon", () => {
  it("is straight between its points, in any order", () => {
    expect(horizonAt(hills, 50)).toBeCloseTo(12, 9);
    expect(horizonAt(hills, 90)).toBe(4);
    expect(horizonAt(hills, 220)).toBeCloseTo(7, 9);
  });

  it("runs on through north", () => {
    expect([355, 0, 5].map((azimuthDeg) => horizonAt(hills, azimuthDeg))).toEqual([12.5, 15, 17.5]);
  });

  it("is level with one point, and flat without any", () => {
    const one = [{ azimuthDeg: 200, elevationDeg: 7 }];
    expect([0, 100, 200, 300].map((azimuthDeg) => horizonAt(one, azimuthDeg))).toEqual([7, 7, 7, 7]);
    expect(horizonAt([], 123)).toBe(0);
  });
});
