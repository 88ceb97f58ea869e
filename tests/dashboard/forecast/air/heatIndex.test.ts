import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { heatForPeople } from "../../../../dashboard/forecast/air/heatForPeople.ts";
import { heatCategory, heatIndexC, heatIndexF } from "../../../../dashboard/forecast/air/heatIndex.ts";
import { closedVehicleRiseC } from "../../../../dashboard/forecast/air/closedTrailer.ts";

const celsius = (deg: number) => (deg - 32) / 1.8;

/** Source: NWS heat index chart, 80 to 110 F by 2, from memory; the rows end where the chart does. */
const chart: Record<number, readonly number[]> = {
  40: [80, 81, 83, 85, 88, 91, 94, 97, 101, 105, 109, 114, 119, 124, 130, 136],
  45: [80, 82, 84, 87, 89, 93, 96, 100, 104, 109, 114, 119, 124, 130, 137],
  50: [81, 83, 85, 88, 91, 95, 99, 103, 108, 113, 118, 124, 131, 137],
  55: [81, 84, 86, 89, 93, 97, 101, 106, 112, 117, 124, 130, 137],
  60: [82, 84, 88, 91, 95, 100, 105, 110, 116, 123, 129, 137],
  65: [82, 85, 89, 93, 98, 103, 108, 114, 121, 128, 136],
  70: [83, 86, 90, 95, 100, 105, 112, 119, 126, 134],
  75: [84, 88, 92, 97, 103, 109, 116, 124, 132],
  80: [84, 89, 94, 100, 106, 113, 121, 129],
  85: [85, 90, 96, 102, 110, 117, 126, 135],
};
const cells = Object.entries(chart).flatMap(([humidityPct, row]) =>
  row.map((indexF, column) => ({ airF: 80 + 2 * column, humidityPct: Number(humidityPct), indexF })),
);

describe("the heat index", () => {
  it("is within 1 F of every cell of the published chart up to 85 %", () => {
    expect(cells.length).toBe(116);
    const off = cells.filter(
      ({ airF, humidityPct, indexF }) => Math.abs(heatIndexF(airF, humidityPct) - indexF) > 1,
    );
    expect(off).toEqual([]);
  });

  // Source: NOAA Weather Prediction Center's formula with its adjustments; the figures computed from it.
  it.each([
    [90, 45, 92.49],
    [90, 70, 105.92],
    [95, 10, 89.45],
    [75, 50, 74.775],
  ])("at %d F and %d %% is %d F", (airF, humidityPct, indexF) => {
    expect(heatIndexF(airF, humidityPct)).toBeCloseTo(indexF, 2);
    expect(heatIndexC(celsius(airF), humidityPct)).toBeCloseTo(celsius(indexF), 2);
  });

  it("at 75 F and 50 % is 74.55 F by the simple formula before it is averaged with the temperature", () => {
    expect(2 * heatIndexF(75, 50) - 75).toBeCloseTo(74.55, 9);
  });

  it("rises with humidity in heat", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 86, max: 105 }),
        fc.integer({ min: 40, max: 84 }),
        (airF, humidityPct) => {
          expect(heatIndexF(airF, humidityPct + 1)).toBeGreaterThan(heatIndexF(airF, humidityPct));
        },
      ),
    );
  });
});

describe("the category of heat", () => {
  // Source: NWS: caution from 80 F, extreme caution from 90, danger from 103, extreme danger from 125.
  it.each([
    [79.9, null],
    [80, "caution"],
    [90, "extremeCaution"],
    [102.9, "extremeCaution"],
    [103, "danger"],
    [124.9, "danger"],
    [125, "extremeDanger"],
  ])("of a heat index of %d F is %s", (indexF, category) => {
    expect(heatCategory(celsius(indexF))).toBe(category);
  });
});

describe("the heat for people", () => {
  const air = { insideC: 33, humidityPct: 55, isInSun: false, isClosed: false };

  it("never comes without the caution that it is no safety device", () => {
    expect(heatForPeople({ ...air, insideC: 15 }).cautions).toEqual(["notASafetyDevice"]);
  });

  it("is danger from 103 F on, long before a printer's limit of 40 C", () => {
    const damp = heatForPeople({ ...air, insideC: 36, humidityPct: 60 });
    expect(damp.category).toBe("danger");
    expect(damp.cautions).toContain("dangerForPeople");
  });

  // Source: NWS: full sun can add up to 15 F.
  it("counts what full sun can add", () => {
    const [shade, sun] = [heatForPeople(air), heatForPeople({ ...air, isInSun: true })];
    expect((sun.feelsC - shade.feelsC) * 1.8).toBeCloseTo(15, 9);
    expect([shade.category, sun.category]).toEqual(["extremeCaution", "danger"]);
    expect(sun.heatIndexC).toBe(shade.heatIndexC);
  });

  it("warns of a closed trailer whatever the thermometer says", () => {
    expect(heatForPeople({ ...air, insideC: 20, isClosed: true }).cautions).toContain("closedTrailer");
  });
});

describe("a closed vehicle in the sun", () => {
  // Source: Null 2003 and McLaren, Null and Quinn 2005; the first two read, the rest from memory.
  const published = [
    [10, 19],
    [20, 29],
    [30, 34],
    [40, 38],
    [50, 41],
    [60, 43],
  ] as const;

  it("warms as published, to 0.72 F rms", () => {
    const off = published.map(([minutes, riseF]) => closedVehicleRiseC(minutes) * 1.8 - riseF);
    expect(Math.max(...off.map(Math.abs))).toBeLessThan(1.5);
    expect(Math.sqrt(off.reduce((sum, each) => sum + each * each, 0) / off.length)).toBeCloseTo(0.72, 1);
  });

  // Source: McLaren, Null and Quinn, Pediatrics 2005.
  it("gains about 80 % of its rise in half an hour, and 10 C in ten minutes", () => {
    expect(closedVehicleRiseC(30) / closedVehicleRiseC(600)).toBeCloseTo(0.8, 1);
    expect(closedVehicleRiseC(10)).toBeCloseTo(10, 0);
    expect(closedVehicleRiseC(0)).toBe(0);
  });
});
