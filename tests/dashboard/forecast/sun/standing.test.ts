import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { minutesOf, sunOnPrinter } from "../../../../dashboard/forecast/sun/sunOnPrinter.ts";
import { standingAdvice } from "../../../../dashboard/forecast/sun/standing.ts";
import { shadeSaving } from "../../../../dashboard/forecast/sun/shade.ts";
import { aBoothFrame, anOpening, aSunSite } from "../../../support/aBoothFrame.ts";
import { anyBetween } from "../../../support/anyBetween.ts";

const site = aSunSite(40, -105);
const openHours = { fromMs: Date.parse("2025-06-21T22:00:00Z"), toMs: Date.parse("2025-06-22T04:00:00Z") };
const anyPlace = fc.record({
  xM: anyBetween(0.2, 2.2),
  yM: anyBetween(0.5, 3.6),
  heightM: anyBetween(0.3, 1.6),
});

describe("where to stand", () => {
  const advice = standingAdvice(aBoothFrame(), site, openHours, []);

  it("counts the minutes of sun as the exact edges do, for every heading", () => {
    expect(advice.headings.map(({ headingDeg }) => headingDeg)).toEqual(
      Array.from({ length: 72 }, (_, n) => n * 5),
    );
    for (const { headingDeg, minutes } of advice.headings) {
      const exact = minutesOf(sunOnPrinter(aBoothFrame({ headingDeg }), site, openHours));
      expect(Math.abs(minutes - exact)).toBeLessThan(1);
    }
    expect(Math.abs(advice.minutesNow - 117.67)).toBeLessThan(0.2);
  });

  it("takes the middle of the headings without sun, away from the evening in the west", () => {
    const dark = advice.headings.filter(({ minutes }) => minutes === 0).map(({ headingDeg }) => headingDeg);
    expect(advice.best.minutes).toBe(0);
    expect(dark).toContain(advice.best.headingDeg);
    const around = [-40, 40].map((off) => (advice.best.headingDeg + off + 360) % 360);
    for (const headingDeg of around) expect(dark).toContain(headingDeg);
    expect(270 + advice.best.turnDeg).toBe(advice.best.headingDeg + (advice.best.turnDeg > 90 ? 360 : 0));
  });

  it("never counts the sun of minutes outside the open hours", () => {
    const none = standingAdvice(
      aBoothFrame(),
      site,
      { fromMs: openHours.fromMs, toMs: openHours.fromMs },
      [],
    );
    expect(none.headings.every(({ minutes }) => minutes === 0)).toBe(true);
  });

  it("finds the place for the printer with the least sun among those named", () => {
    const behindTheDoor = { xM: 1.2, yM: 3.6, heightM: 1 };
    const inTheCorner = { xM: 0.2, yM: 3.6, heightM: 1 };
    const farInside = { xM: 1.2, yM: 0.5, heightM: 1 };
    const { places, bestPlace } = standingAdvice(aBoothFrame(), site, openHours, [
      ...[behindTheDoor, inTheCorner, farInside],
    ]);
    expect(places.map(({ printer }) => printer)).toEqual([behindTheDoor, inTheCorner, farInside]);
    expect(bestPlace?.minutes).toBe(Math.min(...places.map(({ minutes }) => minutes)));
    expect(bestPlace?.printer).toEqual(inTheCorner);
    for (const place of places) expect(place.best.minutes).toBeLessThanOrEqual(place.minutes + 0.5);
  });

  it("says nothing of places when none is named", () => {
    expect(advice.bestPlace).toBeNull();
  });

  it("agrees with the exact edges for any place of the printer and several openings", () => {
    const openings = [
      anOpening(),
      anOpening({ xM: 0, yM: 2, bearingDeg: 270, widthM: 1.4, sillM: 0.9, heightM: 0.8 }),
    ];
    fc.assert(
      fc.property(anyPlace, fc.integer({ min: 0, max: 359 }), (printer, headingDeg) => {
        const frame = aBoothFrame({ headingDeg, openings, printer });
        const exact = minutesOf(sunOnPrinter(frame, site, openHours));
        expect(Math.abs(standingAdvice(frame, site, openHours, []).minutesNow - exact)).toBeLessThan(1);
      }),
      { seed: 4, numRuns: 40 },
    );
  });
});

describe("a shade", () => {
  const save = (depthM: number) =>
    shadeSaving(aBoothFrame(), site, openHours, { opening: 0, depthM, heightM: null });

  it("saves nothing without depth and no less the deeper it is", () => {
    const saved = [0, 0.5, 1, 2, 4].map((depthM) => save(depthM).savedMinutes);
    expect(saved[0]).toBeCloseTo(0, 6);
    expect(saved).toEqual([...saved].sort((one, other) => one - other));
    expect(saved[4]).toBeGreaterThan(60);
  });

  it("leaves what it does not save", () => {
    const { minutesWithout, minutesWith, savedMinutes } = save(1);
    expect(minutesWithout).toBeCloseTo(117.67, 1);
    expect(minutesWith + savedMinutes).toBeCloseTo(minutesWithout, 9);
  });

  it("does nothing for the sun that comes through another opening", () => {
    const openings = [anOpening(), anOpening({ xM: 0, yM: 2, bearingDeg: 270 })];
    const frame = aBoothFrame({ openings });
    const other = shadeSaving(frame, site, openHours, { opening: 1, depthM: 3, heightM: null });
    expect(other.savedMinutes).toBeCloseTo(0, 6);
  });
});
