import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  alduchovEskridge,
  dewPointC,
  humidityPctOf,
  sonntag,
} from "../../../../dashboard/forecast/air/dewPoint.ts";
import { anyBetween } from "../../../support/anyBetween.ts";

const anyAirC = anyBetween(-20, 55);
const anyHumidityPct = anyBetween(1, 100);

describe("relative humidity from the dew point", () => {
  // Source: pvlib's tests (Magnus with 17.62 and 243.12).
  it.each([
    [20, 15, 72.95185],
    [25, 20, 73.815],
    [30, 25, 74.64013],
    [15, 12, 82.27064],
    [10, 8, 87.39018],
  ])("of air at %d C with a dew point of %d C is the published one", (airC, dewC, humidityPct) => {
    expect(humidityPctOf(airC, dewC)).toBeCloseTo(humidityPct, 4);
  });
});

describe("the dew point", () => {
  // Computed beforehand by another program from the same formula.
  it.each([
    [25, 60, 16.69],
    [30, 60, 21.39],
    [30, 80, 26.17],
    [35, 80, 31.03],
  ])("of air at %d C and %d %% is right to a hundredth", (airC, humidityPct, dewC) => {
    expect(dewPointC(airC, humidityPct)).toBeCloseTo(dewC, 2);
  });

  it("is the air's own temperature when it is saturated, and below it otherwise", () => {
    fc.assert(
      fc.property(anyAirC, anyHumidityPct, (airC, humidityPct) => {
        expect(dewPointC(airC, 100)).toBeCloseTo(airC, 9);
        expect(dewPointC(airC, humidityPct)).toBeLessThanOrEqual(airC + 1e-9);
      }),
    );
  });

  it("and the humidity lead back to each other", () => {
    fc.assert(
      fc.property(anyAirC, anyHumidityPct, (airC, humidityPct) => {
        expect(humidityPctOf(airC, dewPointC(airC, humidityPct))).toBeCloseTo(humidityPct, 6);
      }),
    );
  });

  it("is the same to 0.05 C by either set of constants in the air of an event", () => {
    fc.assert(
      fc.property(anyBetween(0, 50), anyBetween(20, 100), (airC, humidityPct) => {
        const [one, other] = [sonntag, alduchovEskridge].map((set) => dewPointC(airC, humidityPct, set));
        expect(Math.abs((one ?? 0) - (other ?? 0))).toBeLessThan(0.05);
      }),
    );
  });

  it("stays a number for air that a sensor calls bone dry", () => {
    expect(Number.isFinite(dewPointC(20, 0))).toBe(true);
  });
});
