import { describe, expect, it } from "vitest";
import { clearSkyWm2 } from "../../../../dashboard/forecast/sun/clearSky.ts";

describe("clear sky", () => {
  // Source: pvlib's tests of the Haurwitz model.
  it.each([
    [5, 48.6298687942],
    [10, 135.7417480918],
    [30, 487.8941328854],
    [50, 778.7666893444],
    [90, 1035.0920325345],
  ])("at %d degrees gives the published irradiance", (elevationDeg, wm2) => {
    expect(clearSkyWm2(elevationDeg)).toBeCloseTo(wm2, 6);
  });

  it("is dark with the sun on the horizon or below", () => {
    expect([0, -0.1, -30, -90].map(clearSkyWm2)).toEqual([0, 0, 0, 0]);
  });
});
