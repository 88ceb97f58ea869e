import { beforeAll, describe, expect, it } from "vitest";
import { heatRunOf, withReading } from "../../../../dashboard/forecast/heat/heatRun.ts";
import { casesOf } from "../../../bench/heat/benchHeat.ts";
import { program } from "../../../bench/heat/forecasters.ts";
import { byHorizon, familyMeasures, type FamilyMeasures } from "../../../bench/heat/measures.ts";
import { openRooms } from "../../../bench/heat/openRooms.ts";
import { openSeries } from "../../../bench/heat/openSeries.ts";
import { tryCase } from "../../../bench/heat/tryCase.ts";

/**
 * A loose floor, so that a change which ruins the forecast is seen at once. How good it is, `npm run bench -- heat`
 * says, on many more buildings.
 */
describe("the temperature forecast on a few afternoons", () => {
  let trailers: FamilyMeasures[];
  beforeAll(() => {
    const names = ["trailer, closed", "trailer, clouds", "trailer, sun on the printer"];
    // No clock: how long an ask takes is the bench's to say.
    trailers = familyMeasures(casesOf(names, "tune", 2).map((heat) => tryCase(heat, program, () => 0)));
  });

  it("errs less than the best baseline chosen afterwards", () => {
    for (const { ratio } of byHorizon(({ rmseRatio }) => rmseRatio, trailers)) expect(ratio).toBeLessThan(1);
  });

  it("holds what comes in its 80 % band about as often as it says", () => {
    const covers = trailers.map(({ coverage }) => coverage);
    expect(Math.min(...covers)).toBeGreaterThan(0.6);
    expect(Math.max(...covers)).toBeLessThan(0.95);
  });

  it("says the course of an open hourly series an hour ahead with less than half of persistence's error", () => {
    const [open] = familyMeasures(openSeries("tune", 1).map((heat) => tryCase(heat, program, () => 0)));
    expect(open?.rmseRatio[2]).toBeLessThan(0.5);
  });

  it("takes no reading of a real house for stuck, though its rooms repeat themselves for hours", () => {
    const rooms = openRooms("judge").filter(({ family }) => family === "real house");
    const faults = rooms.flatMap(({ site, readings }) => {
      let run = heatRunOf(site);
      return readings.map((reading) => (run = withReading(run, reading)).fault);
    });
    expect(faults.length).toBeGreaterThan(600);
    expect(faults.filter((fault) => fault === "stuck")).toEqual([]);
  });

  it("errs less in real rooms than persistence does, an hour ahead", () => {
    const rooms = openRooms("judge").filter(({ family }) => family === "real house");
    const hourAhead = rooms
      .flatMap((heat) => tryCase(heat, program, () => 0).asked)
      .filter(({ minutes }) => minutes === 60);
    const squares = (errorOf: (one: (typeof hourAhead)[number]) => number) =>
      hourAhead.reduce((sum, one) => sum + errorOf(one) ** 2, 0);
    expect(hourAhead.length).toBeGreaterThan(400);
    expect(squares(({ cameC, said }) => cameC - said.p50)).toBeLessThan(
      squares(({ cameC, baselines }) => cameC - baselines.persistence),
    );
  });
});
