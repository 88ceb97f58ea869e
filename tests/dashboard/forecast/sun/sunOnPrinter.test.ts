import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  minutesOf,
  sunOnPrinter,
  sunThroughOpenings,
} from "../../../../dashboard/forecast/sun/sunOnPrinter.ts";
import { sunAt } from "../../../../dashboard/forecast/sun/sunPosition.ts";
import { sunRay } from "../../../../dashboard/forecast/sun/sunRay.ts";
import { aBoothFrame, anOpeningView, aSunSite } from "../../../support/aBoothFrame.ts";
import { anyBetween } from "../../../support/anyBetween.ts";
import { isLitByAlmanac } from "../../../support/almanacSun.ts";

const minuteMs = 60_000;
const dayMs = 24 * 60 * minuteMs;
const toleranceMs = 20_000;

/** A day from noon to noon UTC of the day before, so that no evening in the west or morning in the east is cut. */
function dayAround(noon: string) {
  const noonMs = Date.parse(noon);
  return { fromMs: noonMs - dayMs / 2, toMs: noonMs + dayMs / 2 };
}

const west = anOpeningView();
const underAwning = anOpeningView({
  ...{ bearingDeg: 180, widthM: 1.2, heightM: 0.8, sillM: 0.9, overhang: { depthM: 1, heightM: 1.7 } },
  printer: { depthM: 0.8, rightM: 0.2, heightM: 0.8 },
});
const northward = anOpeningView({
  ...{ bearingDeg: 350, widthM: 1, heightM: 2 },
  printer: { depthM: 1.5, rightM: -0.2, heightM: 0.5 },
});
const midJune = dayAround("2026-06-21T02:00:00Z");
const westEvening = dayAround("2025-06-21T19:00:00Z");

describe("sun on the printer", () => {
  // Computed by hand of the test in lengths from four sources of the sun's position, which agree within 2 s.
  it.each([
    [
      "a west door on a June evening",
      west,
      aSunSite(40, -105),
      westEvening,
      "2025-06-21T23:04:46Z",
      "2025-06-22T01:02:26Z",
    ],
    [
      "a hatch under an awning in February",
      underAwning,
      aSunSite(51.5, 0),
      dayAround("2026-02-20T12:00:00Z"),
      "2026-02-20T09:19:56Z",
      "2026-02-20T10:31:42Z",
    ],
    [
      "a north door in a southern winter",
      northward,
      aSunSite(-33.87, 151.21),
      midJune,
      "2026-06-21T01:00:57Z",
      "2026-06-21T03:17:31Z",
    ],
    [
      "the west door behind a hill of 20 degrees",
      west,
      aSunSite(40, -105, 20),
      westEvening,
      "2025-06-21T23:04:46Z",
      "2025-06-22T00:33:59Z",
    ],
  ] as const)("comes and goes as worked out for %s", (_, view, site, window, from, to) => {
    const stretches = sunThroughOpenings([view], site, window);
    expect(stretches.length).toBe(1);
    expect(Math.abs((stretches[0]?.fromMs ?? 0) - Date.parse(from))).toBeLessThan(toleranceMs);
    expect(Math.abs((stretches[0]?.toMs ?? 0) - Date.parse(to))).toBeLessThan(toleranceMs);
  });

  it("is the same from the booth's frame as from the opening", () => {
    const site = aSunSite(40, -105);
    expect(sunOnPrinter(aBoothFrame(), site, westEvening)).toEqual(
      sunThroughOpenings([west], site, westEvening),
    );
  });

  // Near the poles, and under an edge that the sun runs along, a hundredth of a degree moves an edge by minutes: no
  // two almanacs agree there, and such a moment counts as agreed when that much higher or lower makes it so.
  it("has every edge within 20 s of an independent almanac, and no stretch more or less, at any site and season", () => {
    const seen = { edges: 0, looks: 0, grazing: 0 };
    fc.assert(
      fc.property(anySite, anyView, fc.integer({ min: 0, max: 730 }), (site, view, day) => {
        const fromMs = Date.UTC(2026, 0, 1) + day * dayMs;
        const toMs = fromMs + dayMs;
        const stretches = sunThroughOpenings([view], site, { fromMs, toMs });
        const edges = stretches.flatMap((stretch) => [stretch.fromMs, stretch.toMs]);
        const besideEdges = edges.flatMap((edge) => [edge - toleranceMs, edge + toleranceMs]);
        const everyFew = Array.from({ length: 144 }, (_, step) => fromMs + step * 10 * minuteMs);
        const looks = [...besideEdges, ...everyFew].filter(
          (atMs) =>
            atMs > fromMs && atMs < toMs && edges.every((edge) => Math.abs(edge - atMs) >= toleranceMs),
        );
        seen.edges += edges.length;
        seen.looks += looks.length;
        for (const atMs of looks) {
          const isLit = isIn(stretches, atMs);
          if (isLitByAlmanac(view, site, atMs) === isLit) continue;
          seen.grazing += 1;
          const asRaised = [-0.01, 0.01].map((raisedDeg) => isLitByAlmanac(view, site, atMs, raisedDeg));
          expect(asRaised).toContain(isLit);
        }
      }),
      { seed: 4, numRuns: 200, endOnFailure: true, unbiased: true },
    );
    expect(seen.edges).toBeGreaterThan(100);
    expect(seen.grazing).toBeLessThan(seen.edges / 50);
  });

  it("never comes in the polar night, and comes every hour of the polar day to one door or another", () => {
    const doors = [0, 90, 180, 270].map((bearingDeg) =>
      anOpeningView({
        bearingDeg,
        widthM: 4.1,
        heightM: 2.6,
        printer: { depthM: 2, rightM: 0, heightM: 0.2 },
      }),
    );
    const june = dayAround("2026-06-21T12:00:00Z");
    const december = dayAround("2026-12-21T12:00:00Z");
    expect(sunThroughOpenings(doors, aSunSite(78, 15), december)).toEqual([]);
    expect(minutesOf(sunThroughOpenings(doors, aSunSite(78, 15), june))).toBeCloseTo(24 * 60, 3);
  });

  it("joins what comes through two openings at once, and says through which", () => {
    const wide = anOpeningView({ bearingDeg: 250, widthM: 2 });
    const site = aSunSite(40, -105);
    const alone = [west, wide].map((view) => sunThroughOpenings([view], site, westEvening)[0]);
    const both = sunThroughOpenings([west, wide], site, westEvening);
    expect(both.length).toBe(1);
    expect(both[0]?.openings).toEqual([0, 1]);
    expect(both[0]?.fromMs).toBe(Math.min(...alone.map((each) => each?.fromMs ?? 0)));
    expect(both[0]?.toMs).toBe(Math.max(...alone.map((each) => each?.toMs ?? 0)));
  });

  it("goes behind a tower and comes back, however narrow the tower is", () => {
    const tower = (widthDeg: number) =>
      [-180, -widthDeg, -widthDeg + 0.01, widthDeg - 0.01, widthDeg].map((off, index) => ({
        azimuthDeg: (277 + off + 360) % 360,
        elevationDeg: index === 2 || index === 3 ? 80 : 0,
      }));
    const open = aSunSite(40, -105);
    for (const widthDeg of [3, 0.5, 0.25]) {
      const stretches = sunThroughOpenings([west], { ...open, horizon: tower(widthDeg) }, westEvening);
      expect(stretches.length).toBe(2);
      const gapMs = (stretches[1]?.fromMs ?? 0) - (stretches[0]?.toMs ?? 0);
      const sweep =
        sunAt(open, stretches[1]?.fromMs ?? 0).azimuthDeg - sunAt(open, stretches[0]?.toMs ?? 0).azimuthDeg;
      expect(gapMs).toBeGreaterThan(0);
      expect(sweep).toBeCloseTo(2 * widthDeg, 1);
    }
  });

  it("is cut at the window's ends, and is none in an empty window", () => {
    const site = aSunSite(40, -105);
    const midnight = Date.parse("2025-06-22T00:00:00Z");
    const hour = { fromMs: midnight, toMs: midnight + 60 * minuteMs };
    expect(sunThroughOpenings([west], site, hour)).toEqual([{ ...hour, openings: [0] }]);
    expect(sunThroughOpenings([west], site, { fromMs: midnight, toMs: midnight })).toEqual([]);
  });

  it("turns with the booth: turning the trailer or all its openings is the same", () => {
    const site = aSunSite(-20, 30);
    const window = dayAround("2026-05-05T10:00:00Z");
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 359 }), (headingDeg) => {
        const fromFrame = sunOnPrinter(aBoothFrame({ headingDeg }), site, window);
        const fromView = sunThroughOpenings([anOpeningView({ bearingDeg: headingDeg })], site, window);
        expect(minutesOf(fromFrame)).toBeCloseTo(minutesOf(fromView), 2);
      }),
      { seed: 4, numRuns: 30 },
    );
  });

  it("is mirrored across the equator half a year apart: a booth there that looks north", () => {
    const south = sunThroughOpenings(
      [anOpeningView({ bearingDeg: 0 })],
      aSunSite(-50, 0),
      dayAround("2026-06-21T12:00:00Z"),
    );
    const north = sunThroughOpenings(
      [anOpeningView({ bearingDeg: 180 })],
      aSunSite(50, 0),
      dayAround("2026-12-21T12:00:00Z"),
    );
    expect(minutesOf(north)).toBeGreaterThan(30);
    expect(Math.abs(minutesOf(south) - minutesOf(north))).toBeLessThan(2);
  });

  it("is less with a wider opening nowhere, and more with a deeper overhang nowhere", () => {
    fc.assert(
      fc.property(anySite, anyView, fc.integer({ min: 0, max: 364 }), (site, view, day) => {
        const fromMs = Date.UTC(2026, 0, 1) + day * dayMs;
        const minutes = (some: typeof view) =>
          minutesOf(sunThroughOpenings([some], site, { fromMs, toMs: fromMs + dayMs }));
        const wider = { ...view, widthM: view.widthM + 0.4 };
        const deeper = {
          ...view,
          overhang: { depthM: (view.overhang?.depthM ?? 0) + 0.5, heightM: view.overhang?.heightM ?? 2 },
        };
        expect(minutes(wider)).toBeGreaterThanOrEqual(minutes(view) - 0.02);
        expect(minutes(deeper)).toBeLessThanOrEqual(minutes(view) + 0.02);
      }),
      { seed: 4, numRuns: 40, unbiased: true },
    );
  });
});

describe("at the equinox", () => {
  // Geometry: the sun then goes round in the plane of the equator, which a south wall meets at 90 - latitude.
  it.each([20, 40, 55])(
    "the profile angle of a south wall at %d degrees stays near 90 - latitude all day",
    (latitudeDeg) => {
      const site = aSunSite(latitudeDeg, 0);
      const hours = Array.from({ length: 33 }, (_, step) => Date.UTC(2026, 2, 20, 8) + step * 15 * minuteMs);
      for (const atMs of hours) {
        const { azimuthDeg, trueElevationDeg } = sunAt(site, atMs);
        const ray = sunRay({ azimuthDeg, elevationDeg: trueElevationDeg }, 180);
        const profileDeg = (Math.atan2(ray.up, ray.out) * 180) / Math.PI;
        expect(Math.abs(profileDeg - (90 - latitudeDeg))).toBeLessThan(0.4);
      }
    },
  );
});

const anySite = fc
  .record({
    sine: anyBetween(-1, 1),
    longitudeDeg: anyBetween(-180, 180),
    horizonDeg: fc.option(anyBetween(0, 15)),
  })
  .map(({ sine, longitudeDeg, horizonDeg }) =>
    aSunSite((Math.asin(sine) * 180) / Math.PI, longitudeDeg, horizonDeg),
  );

const anyView = fc.record({
  bearingDeg: anyBetween(0, 360),
  widthM: anyBetween(0.5, 2.5),
  heightM: anyBetween(0.5, 2),
  sillM: anyBetween(0, 1),
  overhang: fc.option(fc.record({ depthM: anyBetween(0, 1.5), heightM: anyBetween(1.5, 2.5) })),
  printer: fc.record({
    depthM: anyBetween(0.3, 2.3),
    rightM: anyBetween(-0.5, 0.5),
    heightM: anyBetween(0.3, 1.5),
  }),
});

function isIn(stretches: readonly { fromMs: number; toMs: number }[], atMs: number): boolean {
  return stretches.some(({ fromMs, toMs }) => fromMs <= atMs && atMs < toMs);
}
