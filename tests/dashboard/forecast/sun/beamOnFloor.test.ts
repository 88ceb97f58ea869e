import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beamOnFloor, type FloorPoint } from "../../../../dashboard/forecast/sun/beamOnFloor.ts";
import { sunOnPrinter } from "../../../../dashboard/forecast/sun/sunOnPrinter.ts";
import { aBoothFrame, anOpening, aSunSite } from "../../../support/aBoothFrame.ts";
import { anyBetween } from "../../../support/anyBetween.ts";

const site = aSunSite(40, -105);
const eveningAtMs = Date.parse("2025-06-22T00:30:00Z");

/** Inside a convex patch, whichever way round its corners go; `slackM` within its edges. */
function isInside(corners: readonly FloorPoint[], { xM, yM }: FloorPoint, slackM: number): boolean {
  const sides = corners.map((corner, index) => {
    const next = corners[(index + 1) % corners.length] ?? corner;
    const [alongX, alongY] = [next.xM - corner.xM, next.yM - corner.yM];
    const length = Math.hypot(alongX, alongY);
    return length === 0 ? Infinity : (alongX * (yM - corner.yM) - alongY * (xM - corner.xM)) / length;
  });
  const real = sides.filter((side) => side !== Infinity);
  return real.every((side) => side > slackM) || real.every((side) => side < -slackM);
}

describe("the sun on the floor", () => {
  it("lies before the west door in the evening, within the trailer", () => {
    const [beam] = beamOnFloor(aBoothFrame(), site, eveningAtMs);
    expect(beam?.opening).toBe(0);
    for (const { xM, yM } of beam?.corners ?? []) {
      expect(xM).toBeGreaterThan(-1e-9);
      expect(xM).toBeLessThan(2.4 + 1e-9);
      expect(yM).toBeGreaterThan(-1e-9);
      expect(yM).toBeLessThan(4 + 1e-9);
    }
    expect(beam?.corners.length).toBeGreaterThanOrEqual(4);
  });

  it("is none at night and none through a door away from the sun", () => {
    expect(beamOnFloor(aBoothFrame(), site, Date.parse("2025-06-21T08:00:00Z"))).toEqual([]);
    expect(beamOnFloor(aBoothFrame({ headingDeg: 90 }), site, eveningAtMs)).toEqual([]);
  });

  it("covers the very points of the floor that the sun reaches", () => {
    const openings = [
      anOpening({ overhang: { depthM: 0.4, heightM: 2 } }),
      anOpening({ xM: 0, yM: 2, bearingDeg: 270, widthM: 1.4, sillM: 0.7, heightM: 0.9 }),
    ];
    const sights = { lit: 0, dark: 0 };
    fc.assert(
      fc.property(
        anyBetween(0.05, 2.35),
        anyBetween(0.05, 3.95),
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: 0, max: 7 * 60 }),
        (xM, yM, headingDeg, minute) => {
          const atMs = Date.parse("2025-06-21T20:00:00Z") + minute * 60_000;
          const frame = aBoothFrame({ headingDeg, openings, printer: { xM, yM, heightM: 0 } });
          const isLit = sunOnPrinter(frame, site, { fromMs: atMs, toMs: atMs + 40 }).length > 0;
          const beams = beamOnFloor(frame, site, atMs);
          const isIn = beams.some(({ corners }) => isInside(corners, { xM, yM }, 0.005));
          const isNear = beams.some(({ corners }) => isInside(corners, { xM, yM }, -0.005));
          if (isIn !== isNear) return;
          sights[isLit ? "lit" : "dark"] += 1;
          expect(isLit).toBe(isIn);
        },
      ),
      { seed: 4, numRuns: 1500 },
    );
    expect(Math.min(sights.lit, sights.dark)).toBeGreaterThan(40);
  });
});
