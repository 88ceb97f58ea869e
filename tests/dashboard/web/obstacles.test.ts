import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { horizonAt } from "../../../dashboard/forecast/sun/horizon.ts";
import { horizonBody, horizonOf, obstaclesOf } from "../../../dashboard/web/parts/obstacles.ts";

const house = { fromDeg: 240, toDeg: 280, elevationDeg: 20 };
const hill = { fromDeg: 340, toDeg: 20, elevationDeg: 8 };

describe("what stands around a booth", () => {
  it("stands as high as it is in its directions, round through north, and the rest is open", () => {
    const horizon = horizonOf([house, hill]);
    const heights = [239, 240, 260, 280, 281, 339, 340, 0, 20, 21, 100].map((deg) => horizonAt(horizon, deg));
    expect(heights).toEqual([0, 20, 20, 20, 0, 0, 8, 8, 8, 0, 0]);
    expect(horizonOf([])).toEqual([]);
  });

  it("is as high as the highest of what stands before one another, and may be all round", () => {
    const tree = { fromDeg: 230, toDeg: 250, elevationDeg: 30 };
    const horizon = horizonOf([house, tree]);
    expect([229, 230, 245, 250, 251, 280].map((deg) => horizonAt(horizon, deg))).toEqual([
      ...[0, 30, 30, 30, 20, 20],
    ]);
    expect(horizonAt(horizonOf([{ fromDeg: 0, toDeg: 360, elevationDeg: 5 }]), 123)).toBe(5);
    expect(obstaclesOf(horizonOf([{ fromDeg: 0, toDeg: 360, elevationDeg: 5 }]))).toEqual([
      { fromDeg: 0, toDeg: 360, elevationDeg: 5 },
    ]);
  });

  it("comes back as it was written", () => {
    expect(obstaclesOf(horizonOf([house]))).toEqual([house]);
    expect(obstaclesOf(horizonOf([hill]))).toEqual([hill]);
    expect(obstaclesOf([])).toEqual([]);
    const degrees = fc.integer({ min: 0, max: 359 });
    const obstacle = fc.record({
      ...{ fromDeg: degrees, toDeg: degrees, elevationDeg: fc.integer({ min: 1, max: 80 }) },
    });
    fc.assert(
      fc.property(fc.array(obstacle, { maxLength: 4 }), (written) => {
        const horizon = horizonOf(written);
        const again = horizonOf(obstaclesOf(horizon) ?? []);
        for (let deg = 0; deg < 360; deg++)
          expect(horizonAt(again, deg)).toBeCloseTo(horizonAt(horizon, deg), 9);
      }),
    );
  });

  it("is another thing than a horizon that was measured point by point", () => {
    const ridge = [
      { azimuthDeg: 0, elevationDeg: 5 },
      { azimuthDeg: 90, elevationDeg: 12 },
      { azimuthDeg: 200, elevationDeg: 0 },
    ];
    expect(obstaclesOf(ridge)).toBeNull();
  });
});

describe("what the form sends of it", () => {
  const written = (over: Record<string, string>) => ({
    text: (name: string) => over[name] ?? "",
    textOrNull: (name: string) => over[name] ?? null,
    has: (name: string) => name in over,
    number: (name: string) => {
      const text = over[name] ?? "";
      if (text === "") return null;
      return Number.isNaN(Number(text)) ? text : Number(text);
    },
  });
  const row = (at: number, from: string, to: string, high: string) => ({
    ...{ [`obstacle.${at}.fromDeg`]: from, [`obstacle.${at}.toDeg`]: to },
    [`obstacle.${at}.elevationDeg`]: high,
  });
  const kept = [{ azimuthDeg: 90, elevationDeg: 12 }, ...horizonOf([hill])];

  it("is what was written, and what was kept where nothing was asked or one measured by points is left alone", () => {
    expect(horizonBody(written(row(0, "240", "280", "20")), [])).toEqual(horizonOf([house]));
    expect(horizonBody(written({}), kept)).toBe(kept);
    expect(obstaclesOf(kept)).toBeNull();
    expect(horizonBody(written(row(0, "", "", "")), kept)).toBe(kept);
    expect(horizonBody(written(row(0, "", "", "")), horizonOf([house]))).toEqual([]);
  });

  it("is the dashboard's to refuse where a figure is missing, no figure, or off the circle", () => {
    expect(horizonBody(written(row(0, "240", "", "20")), [])).toEqual([
      { azimuthDeg: 240, elevationDeg: 20 },
      { azimuthDeg: null, elevationDeg: 20 },
    ]);
    expect(horizonBody(written(row(0, "west", "300", "20")), [])).toMatchObject([{ azimuthDeg: "west" }, {}]);
    expect(horizonBody(written(row(0, "0", "725", "20")), [])).toMatchObject([{}, { azimuthDeg: 725 }]);
  });
});
