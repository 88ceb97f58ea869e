import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { forecastHeat, type HeatAhead } from "../../../../dashboard/forecast/heat/forecastHeat.ts";
import { heatRunOf, withReading } from "../../../../dashboard/forecast/heat/heatRun.ts";
import { aHeatSite, forecastNow, heatReadings, morningAtMs, runOf } from "../../../support/heatReadings.ts";

const minuteMs = 60_000;
const figuresOf = ({ fan }: HeatAhead) => fan.flatMap(({ p10, p50, p90 }) => [p10, p50, p90]);
const widthAt60 = ({ points }: HeatAhead) => points[2]!.p90 - points[2]!.p10;
const rising = (minutes: number, perMin: number) =>
  Array.from({ length: minutes }, (_, at) => 24 + perMin * at + 0.02 * Math.sin(7 * at));

describe("the next hour's temperature", () => {
  it("goes on rising where it rose, says when the limit is passed and with what chance", () => {
    const ahead = forecastNow(runOf(heatReadings(rising(90, 0.1))));
    expect(ahead.basis).toBe("enoughData");
    expect(ahead.points[0]!.p50).toBeGreaterThan(33.5);
    expect(ahead.points[2]!.p50).toBeGreaterThan(ahead.points[0]!.p50);
    expect(ahead.crossChance60).toBeGreaterThan(0.5);
    const inMinutes = ((ahead.crossAtMs ?? NaN) - ahead.atMs) / minuteMs;
    expect(inMinutes).toBeGreaterThan(10);
    expect(inMinutes).toBeLessThan(60);
  });

  it("stays where it stayed, in a narrow band, far from the limit", () => {
    const ahead = forecastNow(
      runOf(heatReadings(rising(90, 0), { fromMs: morningAtMs - 12 * 60 * minuteMs })),
    );
    expect(Math.abs(ahead.points[2]!.p50 - 24)).toBeLessThan(0.5);
    expect(widthAt60(ahead)).toBeLessThan(1.5);
    expect(ahead.crossChance60).toBeLessThan(0.01);
    expect(ahead.crossAtMs).toBeNull();
  });

  it("has a fan in steps of five minutes, and its points at 15, 30 and 60", () => {
    const { fan, points } = forecastNow(runOf(heatReadings(rising(40, 0.05))));
    expect(fan.map(({ minutes }) => minutes)).toEqual([0, 5, 10, 15, 20, 25, 30, 35, 40, 45, 50, 55, 60]);
    expect(points).toEqual([fan[3], fan[6], fan[12]]);
  });

  it("says not enough data before three readings over ten minutes, and when the last is hours old", () => {
    const readings = heatReadings([24, 24.1, 24.1], { everyMin: 5 });
    expect(forecastHeat(heatRunOf(aHeatSite()), morningAtMs)).toBeNull();
    expect(forecastNow(runOf(readings.slice(0, 2))).basis).toBe("notEnoughData");
    expect(forecastNow(runOf(readings)).basis).toBe("enoughData");
    const later = forecastHeat(runOf(readings), morningAtMs + 4 * 60 * minuteMs);
    expect(later?.basis).toBe("notEnoughData");
  });

  it("widens with every minute since the last reading", () => {
    const run = runOf(heatReadings(rising(60, 0.02)));
    const widths = [0, 30, 60, 180].map((minutes) =>
      widthAt60(forecastHeat(run, (run.seenAtMs ?? NaN) + minutes * minuteMs)!),
    );
    expect(widths).toEqual([...widths].sort((a, b) => a - b));
    expect(widths[3]).toBeGreaterThan(2 * widths[0]!);
  });

  it("knows nothing of a limit that nobody gave", () => {
    const run = runOf(heatReadings(rising(40, 0.05)), heatRunOf(aHeatSite({ limitC: null })));
    expect(forecastNow(run)).toMatchObject({ crossChance60: null, crossAtMs: null });
  });

  it("calls the limit passed now when it is", () => {
    const run = runOf(heatReadings(rising(40, 0.05)), heatRunOf(aHeatSite({ limitC: 20 })));
    const ahead = forecastNow(run);
    expect(ahead.crossAtMs).toBe(ahead.atMs);
    expect(ahead.crossChance60).toBeGreaterThan(0.99);
  });
});

describe("the sun in the forecast", () => {
  it("does nothing at night, whatever openings there are", () => {
    const atNight = heatReadings(rising(60, 0.01), { fromMs: Date.UTC(2025, 5, 22, 5) });
    const closed = runOf(atNight, heatRunOf(aHeatSite({ views: [] })));
    expect(figuresOf(forecastNow(runOf(atNight)))).toEqual(figuresOf(forecastNow(closed)));
  });

  it("is counted on before it reaches the printer, and not when the printer stands beside the beam", () => {
    // By the first example of the sun's check values it reaches this printer at 23:04:46 UTC.
    const before = { fromMs: Date.UTC(2025, 5, 21, 21, 50), outsideC: 24 };
    const readings = heatReadings(rising(60, 0), before);
    const [view] = aHeatSite().views;
    const aside = { ...view!, printer: { depthM: 1.2, rightM: 3, heightM: 1 } };
    const lit = forecastNow(runOf(readings));
    const unlit = forecastNow(runOf(readings, heatRunOf(aHeatSite({ views: [aside] }))));
    expect(lit.points[2]!.p50).toBeGreaterThan(unlit.points[2]!.p50 + 0.2);
  });

  it("takes the outside from the day's high when nobody measures it", () => {
    const readings = heatReadings([24, 24, 24, 24, 24], { everyMin: 5 });
    const inHeat = runOf(readings, heatRunOf(aHeatSite({ expectedHighC: 45 })));
    const inCold = runOf(readings, heatRunOf(aHeatSite({ expectedHighC: 10 })));
    expect(forecastNow(inHeat).points[2]!.p50).toBeGreaterThan(forecastNow(inCold).points[2]!.p50);
  });
});

const anyDegC = fc.oneof(
  { weight: 8, arbitrary: fc.double({ min: 5, max: 50, noNaN: true }) },
  { weight: 1, arbitrary: fc.constantFrom(85, -127, 0, 104, 1e9) },
);
const anyReadings = fc
  .array(fc.tuple(fc.integer({ min: 5_000, max: 40 * minuteMs }), anyDegC, fc.option(anyDegC)), {
    minLength: 1,
    maxLength: 25,
  })
  .map((rows) => {
    let atMs = morningAtMs;
    return rows.map(([waitMs, insideC, outsideC]) => ({ atMs: (atMs += waitMs), insideC, outsideC }));
  });

describe("any forecast", () => {
  it("is finite, its bands in order, its chance a chance", () => {
    fc.assert(
      fc.property(anyReadings, fc.integer({ min: 0, max: 300 }), (readings, minutes) => {
        const run = runOf(readings);
        const ahead = forecastHeat(run, (run.seenAtMs ?? morningAtMs) + minutes * minuteMs);
        if (ahead === null) {
          // In a block, since a property fails by what an expectation gives back.
          expect(run.state).toBeNull();
          return;
        }
        expect(figuresOf(ahead).every(Number.isFinite)).toBe(true);
        for (const { p10, p50, p90 } of ahead.fan) {
          expect(p10).toBeLessThanOrEqual(p50);
          expect(p50).toBeLessThanOrEqual(p90);
        }
        expect(ahead.crossChance60).toBeGreaterThanOrEqual(0);
        expect(ahead.crossChance60).toBeLessThanOrEqual(1);
      }),
      { numRuns: 40 },
    );
  });

  it("is the same however often it was asked before, and in whatever batches the readings came", () => {
    fc.assert(
      fc.property(anyReadings, fc.nat(24), (readings, cut) => {
        let asked = heatRunOf(aHeatSite());
        for (const reading of readings) {
          asked = withReading(asked, reading);
          forecastHeat(asked, reading.atMs);
          forecastHeat(asked, reading.atMs + 90_000);
        }
        const half = runOf(readings.slice(0, cut));
        const atMs = readings.at(-1)!.atMs;
        expect(forecastHeat(asked, atMs)).toEqual(forecastHeat(runOf(readings), atMs));
        expect(forecastHeat(runOf(readings.slice(cut), half), atMs)).toEqual(forecastHeat(asked, atMs));
      }),
      { numRuns: 20 },
    );
  });

  it("knows no calendar: whole days later under the same sun's place the night's forecast is the same", () => {
    const night = Date.UTC(2025, 5, 22, 5);
    const dayMs = 86_400_000;
    const [one, other] = [night, night + dayMs].map((fromMs) =>
      figuresOf(forecastNow(runOf(heatReadings(rising(40, 0.02), { fromMs })))),
    );
    one!.forEach((figure, at) => expect(other![at]).toBeCloseTo(figure, 9));
  });
});
