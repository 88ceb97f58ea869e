import { describe, expect, it } from "vitest";
import { openingViews } from "../../../../dashboard/forecast/sun/boothFrame.ts";
import { aBoothFrame, anOpening } from "../../../support/aBoothFrame.ts";

describe("the openings of a booth", () => {
  it("see the printer behind them, and to the right of their middle looking out", () => {
    const openings = [
      anOpening(),
      anOpening({ xM: 2.4, yM: 2, bearingDeg: 90 }),
      anOpening({ xM: 1.2, yM: 0, bearingDeg: 180 }),
      anOpening({ xM: 0, yM: 2, bearingDeg: 270 }),
    ];
    const frame = aBoothFrame({ headingDeg: 30, openings, printer: { xM: 0.9, yM: 2.8, heightM: 1 } });
    const seen = openingViews(frame).map(({ bearingDeg, printer }) => [
      bearingDeg,
      Number(printer?.depthM.toFixed(9)),
      Number(printer?.rightM.toFixed(9)),
    ]);
    expect(seen).toEqual([
      [30, 1.2, -0.3],
      [120, 1.5, -0.8],
      [210, 2.8, 0.3],
      [300, 0.9, 0.8],
    ]);
  });
});
