import { describe, expect, it } from "vitest";
import { forecastHeat } from "../../../../dashboard/forecast/heat/forecastHeat.ts";
import { withReading } from "../../../../dashboard/forecast/heat/heatRun.ts";
import { forecastNow, heatReadings, morningAtMs, runOf } from "../../../support/heatReadings.ts";

const minuteMs = 60_000;
const calm = Array.from({ length: 40 }, (_, at) => 24 + 0.03 * Math.sin(5 * at));
const calmRun = runOf(heatReadings(calm));
const next = (insideC: number, minutes = 40) => ({
  atMs: morningAtMs + minutes * minuteMs,
  insideC,
  outsideC: null,
});

describe("a reading that is no measurement", () => {
  it.each([
    // A one-wire thermometer's power-on value is 85 C (data sheets); the kernel's driver passes it on.
    ["the power-on value of 85 C", 85, "powerOnValue"],
    ["a broken wire's -127 C", -127, "noAirTemperature"],
    ["77 F sent as Celsius", 77, "noAirTemperature"],
    ["a single reading far off", 38, "spike"],
  ])("%s is left out, and the forecast stays", (_, insideC, fault) => {
    const run = withReading(calmRun, next(insideC));
    expect(run.fault).toBe(fault);
    expect(forecastHeat(run, next(0).atMs)).toEqual(forecastHeat(calmRun, next(0).atMs));
  });

  it("is believed when three in a row agree: the booth was opened or moved", () => {
    let run = calmRun;
    const faults = [31, 31.2, 31.1].map((insideC, at) => {
      run = withReading(run, next(insideC, 40 + at));
      return run.fault;
    });
    expect(faults).toEqual(["spike", "spike", null]);
    expect(Math.abs(forecastNow(run).fan[0]!.p50 - 31.1)).toBeLessThan(0.5);
  });

  it("out of order is left out, and so is a second one of the same instant", () => {
    for (const minutes of [39, 12]) expect(withReading(calmRun, next(30, minutes)).fault).toBe("outOfOrder");
  });

  it("of a thermometer that usually moves and now stands still is left out, and the band widens", () => {
    const stuck = Array.from({ length: 60 }, (_, at) => next(24.02, 40 + at)).reduce(withReading, calmRun);
    expect(stuck.fault).toBe("stuck");
    const [before, after] = [forecastNow(calmRun), forecastNow(stuck)];
    expect(after.points[0]!.p90 - after.points[0]!.p10).toBeGreaterThan(
      before.points[0]!.p90 - before.points[0]!.p10,
    );
    expect(withReading(stuck, next(24.1, 101)).fault).toBeNull();
  });

  // Read in hundredths, a spread of some 0.02 C: a repeat in about six.
  const trembling = Array.from(
    { length: 40 },
    (_, at) => 24 + 0.03 * at + [0, 0.02, -0.03, 0.01, -0.01][at % 5]!,
  );
  const trembled = runOf(heatReadings(trembling.map((degC) => Math.round(100 * degC) / 100)));
  const lastC = 25.16;

  it("of a thermometer that trembles is left out soon, and what it said since it stopped is forgotten", () => {
    let run = trembled;
    const faults = Array.from({ length: 25 }, (_, at) => {
      run = withReading(run, next(lastC, 40 + at));
      return run.fault;
    });
    expect(faults.indexOf("stuck")).toBeGreaterThan(3);
    // By how often it had repeated itself alone, it would take fifteen.
    expect(faults.indexOf("stuck")).toBeLessThan(12);
    expect(faults.at(-1)).toBe("stuck");
    const atMs = next(0, 65).atMs;
    expect(forecastHeat(run, atMs)).toEqual(forecastHeat(trembled, atMs));
  });

  it("is stuck all the same when a spike comes between", () => {
    const stuck = [...Array.from({ length: 14 }, () => lastC), 40, lastC];
    expect(stuck.map((degC, at) => next(degC, 40 + at)).reduce(withReading, trembled).fault).toBe("stuck");
  });

  it("of a calm room read in tenths is taken", () => {
    const evening = Array.from({ length: 400 }, (_, at) => Math.round(10 * (21 + Math.sin(at / 40))) / 10);
    let run = runOf([]);
    const faults = heatReadings(evening).map((reading) => (run = withReading(run, reading)).fault);
    expect(faults.filter((fault) => fault === "stuck")).toEqual([]);
  });

  it("of a coarse thermometer that often repeats itself is taken", () => {
    const steps = Array.from({ length: 300 }, (_, at) => 24 + 0.5 * Math.floor(at / 25));
    expect(runOf(heatReadings(steps)).fault).toBeNull();
  });

  it("outside in no possible temperature counts as not known", () => {
    const known = runOf(heatReadings(calm, { outsideC: null }));
    const mad = runOf(heatReadings(calm, { outsideC: 451 }));
    expect(forecastNow(mad)).toEqual(forecastNow(known));
  });
});

describe("a gap of hours", () => {
  it("leaves a wide band at first, and a forecast as good as new soon after", () => {
    const backAtMs = morningAtMs + 9 * 60 * minuteMs;
    const back = runOf(heatReadings([31, 31.1, 31.1], { fromMs: backAtMs }), calmRun);
    const soon = runOf(
      heatReadings(
        calm.map((degC) => degC + 7),
        { fromMs: backAtMs },
      ),
      calmRun,
    );
    const width = (run: typeof back) => forecastNow(run).points[2]!.p90 - forecastNow(run).points[2]!.p10;
    expect(Math.abs(forecastNow(back).fan[0]!.p50 - 31)).toBeLessThan(0.5);
    expect(width(back)).toBeGreaterThan(width(calmRun));
    expect(width(soon)).toBeLessThan(width(back));
  });
});
