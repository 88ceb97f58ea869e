import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { bearingOf, turnDeg } from "../../../../dashboard/forecast/sun/bearing.ts";
import { headingFromMagnetic, headingFromShadow } from "../../../../dashboard/forecast/sun/heading.ts";
import { almanacSun } from "../../../support/almanacSun.ts";

const golden = { latitudeDeg: 39.742476, longitudeDeg: -105.1786 };
const exampleAtMs = Date.UTC(2003, 9, 17, 19, 30, 30);

describe("the heading from a shadow", () => {
  // Source: NREL TP-560-34302, worked example: the sun's azimuth is 194.340241, so a shadow falls towards 14.34.
  it("is the sun's opposite less where the shadow fell", () => {
    const seen = headingFromShadow(golden, { atMs: exampleAtMs, shadowDeg: 90 });
    expect("headingDeg" in seen ? seen.headingDeg : null).toBeCloseTo(284.340241, 1);
  });

  it("says how far off it is for each minute of a wrong clock", () => {
    const seen = headingFromShadow(golden, { atMs: exampleAtMs, shadowDeg: 90 });
    const [before, after] = [0, 60_000].map(
      (laterMs) => almanacSun(golden, exampleAtMs + laterMs).azimuthDeg,
    );
    const expected = (after ?? 0) - (before ?? 0);
    expect("slackDegPerMinute" in seen ? seen.slackDegPerMinute : null).toBeCloseTo(expected, 3);
  });

  it("brings back any heading whose shadow an independent almanac casts", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 359 }),
        fc.integer({ min: 0, max: 24 * 60 }),
        (headingDeg, minute) => {
          const atMs = Date.UTC(2026, 3, 2) + minute * 60_000;
          const sun = almanacSun(golden, atMs);
          const shadowDeg = bearingOf(sun.azimuthDeg + 180 - headingDeg);
          const seen = headingFromShadow(golden, { atMs, shadowDeg });
          if (sun.elevationDeg < 0.1) return;
          expect(Math.abs(turnDeg("headingDeg" in seen ? seen.headingDeg : 999, headingDeg))).toBeLessThan(
            0.05,
          );
        },
      ),
      { seed: 4, numRuns: 200 },
    );
  });

  it("is refused at night and with the sun overhead", () => {
    const night = headingFromShadow(golden, { atMs: Date.UTC(2026, 0, 1, 8), shadowDeg: 0 });
    const overhead = { latitudeDeg: 0, longitudeDeg: 0 };
    const noon = headingFromShadow(overhead, { atMs: Date.UTC(2026, 2, 20, 12, 7), shadowDeg: 0 });
    expect([night, noon]).toEqual([{ refused: "sunDown" }, { refused: "sunTooHigh" }]);
  });
});

describe("the heading by a compass", () => {
  // Convention of maps: declination is positive where the needle points east of true north.
  it("is corrected by the declination of the place", () => {
    expect([headingFromMagnetic(350, 14), headingFromMagnetic(5, -12), headingFromMagnetic(90, 0)]).toEqual([
      4, 353, 90,
    ]);
  });
});

describe("bearings", () => {
  it("come round to 0 up to 360, and turn the short way", () => {
    expect([725, -90, 360, 0, -720, 359.5].map(bearingOf)).toEqual([5, 270, 0, 0, 0, 359.5]);
    expect([turnDeg(350, 10), turnDeg(10, 350), turnDeg(0, 180), turnDeg(180, 0)]).toEqual([
      20, -20, 180, 180,
    ]);
  });
});
