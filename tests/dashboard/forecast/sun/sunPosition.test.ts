import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { refractionDeg, sunAt } from "../../../../dashboard/forecast/sun/sunPosition.ts";
import { sunRay } from "../../../../dashboard/forecast/sun/sunRay.ts";
import { turnDeg } from "../../../../dashboard/forecast/sun/bearing.ts";
import { anyBetween } from "../../../support/anyBetween.ts";
import { almanacSun } from "../../../support/almanacSun.ts";

const golden = { latitudeDeg: 39.742476, longitudeDeg: -105.1786 };

describe("the sun's position", () => {
  // Source: NREL TP-560-34302, worked example (1830 m, 820 mbar, 11 C; the air moves it by less than the tolerance).
  it("is that of the published example near Golden", () => {
    const sun = sunAt(golden, Date.UTC(2003, 9, 17, 19, 30, 30));
    expect(Math.abs(sun.azimuthDeg - 194.340241)).toBeLessThan(0.02);
    expect(Math.abs(sun.trueElevationDeg - 39.872046)).toBeLessThan(0.02);
    expect(Math.abs(sun.elevationDeg - 39.888378)).toBeLessThan(0.02);
    expect(Math.abs(90 - sun.elevationDeg - 50.11162)).toBeLessThan(0.02);
  });

  it("is within 0.015 degrees of an independent almanac anywhere, at any season", () => {
    fc.assert(
      fc.property(
        anyBetween(-90, 90),
        anyBetween(-180, 180),
        fc.integer({ min: Date.UTC(2020, 0, 1), max: Date.UTC(2040, 0, 1) }),
        (latitudeDeg, longitudeDeg, atMs) => {
          const place = { latitudeDeg, longitudeDeg };
          const [ours, theirs] = [sunAt(place, atMs), almanacSun(place, atMs, null)];
          const aside =
            turnDeg(ours.azimuthDeg, theirs.azimuthDeg) * Math.cos((theirs.elevationDeg * Math.PI) / 180);
          expect(Math.abs(ours.trueElevationDeg - theirs.elevationDeg)).toBeLessThan(0.015);
          expect(Math.abs(aside)).toBeLessThan(0.015);
        },
      ),
      { seed: 4, numRuns: 2000 },
    );
  });

  // Source: 34' is the refraction at the horizon that rise and set are reckoned with (common to almanacs).
  it("is lifted by about 34 minutes of arc where the sun rises, by 29 at a true elevation of 0", () => {
    expect(refractionDeg(-0.57) * 60).toBeCloseTo(34.4, 0);
    expect(refractionDeg(0) * 60).toBeCloseTo(29, 0);
    expect(refractionDeg(90) * 60).toBeCloseTo(0, 2);
  });

  it("goes on smoothly through the horizon", () => {
    const rise = Date.UTC(2026, 2, 20, 6);
    const steps = Array.from({ length: 240 }, (_, step) => rise + step * 10_000);
    const heights = steps.map((atMs) => sunAt({ latitudeDeg: 0, longitudeDeg: 0 }, atMs).elevationDeg);
    const climbs = heights.slice(1).map((height, index) => height - (heights[index] ?? 0));
    expect(Math.min(...climbs)).toBeGreaterThan(0.03);
    expect(Math.max(...climbs)).toBeLessThan(0.05);
  });
});

describe("the sun on a wall", () => {
  // Source: pvlib's tests of the angle of incidence (tilt 90, surface azimuth 0, zenith 30).
  it("has the published angles of incidence", () => {
    const incidence = (azimuthDeg: number) =>
      (Math.acos(sunRay({ azimuthDeg, elevationDeg: 60 }, 0).out) * 180) / Math.PI;
    expect(incidence(60)).toBeCloseTo(75.5224878, 6);
    expect(incidence(170)).toBeCloseTo(119.4987042, 6);
  });
});
