import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { beamFraction } from "../../../../dashboard/forecast/sun/beamFraction.ts";
import { clearAirShare } from "../../../../dashboard/forecast/sun/clearSky.ts";
import { sunAt } from "../../../../dashboard/forecast/sun/sunPosition.ts";
import { sunThroughOpenings } from "../../../../dashboard/forecast/sun/sunOnPrinter.ts";
import { anOpeningView, aSunSite } from "../../../support/aBoothFrame.ts";

const site = aSunSite(40, -105);
const fromMs = Date.parse("2025-06-21T12:00:00Z");
const window = { fromMs, toMs: fromMs + 24 * 3_600_000 };
const view = anOpeningView();
const unplaced = anOpeningView({ printer: null });

describe("the beam on the printer", () => {
  it("is all that a clear sky lets through in the middle of the stretch, and none well outside it", () => {
    const [stretch] = sunThroughOpenings([view], site, window);
    const middleMs = ((stretch?.fromMs ?? 0) + (stretch?.toMs ?? 0)) / 2;
    expect(beamFraction([view], site, middleMs)).toBeCloseTo(
      clearAirShare(sunAt(site, middleMs).elevationDeg),
      9,
    );
    expect(beamFraction([view], site, (stretch?.fromMs ?? 0) - 3_600_000)).toBe(0);
    expect(beamFraction([view], site, (stretch?.toMs ?? 0) + 3_600_000)).toBe(0);
  });

  it("comes by steps, not at one instant", () => {
    const [stretch] = sunThroughOpenings([view], site, window);
    const atEdge = beamFraction([view], site, stretch?.fromMs ?? 0);
    expect(atEdge).toBeGreaterThan(0.1);
    expect(atEdge).toBeLessThan(0.9);
  });

  it("is none at night and behind the horizon, with or without the printer's place", () => {
    const night = Date.parse("2025-06-21T08:00:00Z");
    const evening = Date.parse("2025-06-22T00:30:00Z");
    for (const views of [[view], [unplaced]]) {
      expect(beamFraction(views, site, night)).toBe(0);
      expect(beamFraction(views, site, evening)).toBeGreaterThan(0.3);
      expect(beamFraction(views, aSunSite(40, -105, 40), evening)).toBe(0);
    }
    expect(beamFraction([], site, evening)).toBe(0);
  });

  it("without a place is the openings' share that faces the sun, less what an overhang shades", () => {
    const evening = Date.parse("2025-06-22T00:30:00Z");
    const shaded = anOpeningView({ printer: null, overhang: { depthM: 1, heightM: 1.9 } });
    const away = anOpeningView({ printer: null, bearingDeg: 90 });
    const open = beamFraction([unplaced], site, evening);
    expect(beamFraction([shaded], site, evening)).toBeLessThan(open);
    expect(beamFraction([away], site, evening)).toBe(0);
    expect(beamFraction([unplaced, away], site, evening)).toBeCloseTo(open / 2, 9);
  });

  it("goes by the opening whose printer's place is known when only one is", () => {
    const evening = Date.parse("2025-06-22T00:30:00Z");
    const away = anOpeningView({ printer: null, bearingDeg: 90 });
    expect(beamFraction([view, away], site, evening)).toBe(beamFraction([view], site, evening));
  });

  it("stays between 0 and 1", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 365 * 24 * 60 }), fc.boolean(), (minute, isPlaced) => {
        const beam = beamFraction([isPlaced ? view : unplaced], site, fromMs + minute * 60_000);
        expect(beam).toBeGreaterThanOrEqual(0);
        expect(beam).toBeLessThanOrEqual(1);
      }),
      { seed: 4 },
    );
  });
});
