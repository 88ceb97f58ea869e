import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { condensationWait } from "../../../../dashboard/forecast/air/condensation.ts";
import { dewPointC } from "../../../../dashboard/forecast/air/dewPoint.ts";
import { anyBetween } from "../../../support/anyBetween.ts";

const warmRoom = { airC: 30, humidityPct: 60, timeConstantMinutes: 40 };

describe("the wait for a printer that was carried in", () => {
  // Media at 20 C moved into 30 C and 60 % will sweat: the dew point there is 21.39 C (computed).
  it("is needed for media at 20 C in a room of 30 C and 60 %", () => {
    const wait = condensationWait({ ...warmRoom, caseC: 20 });
    expect(wait.isSweating).toBe(true);
    expect(wait.dewPointC).toBeCloseTo(21.39, 2);
    expect(wait.waitMinutes).toBeGreaterThan(5);
  });

  it("ends when the case, warming with its time constant, has passed the dew point by the margin", () => {
    fc.assert(
      fc.property(
        anyBetween(-10, 20),
        anyBetween(5, 120),
        anyBetween(0, 2),
        (caseC, timeConstantMinutes, marginC) => {
          const { waitMinutes } = condensationWait({ ...warmRoom, caseC, timeConstantMinutes }, marginC);
          let warmed = caseC;
          const stepMinutes = timeConstantMinutes / 20_000;
          for (let at = 0; at < (waitMinutes ?? 0); at += stepMinutes) {
            warmed += ((30 - warmed) * stepMinutes) / timeConstantMinutes;
          }
          expect(warmed).toBeCloseTo(dewPointC(30, 60) + marginC, 1);
        },
      ),
      { seed: 4, numRuns: 30 },
    );
  });

  it("is none for a case that is warm enough, and longer the colder it comes in", () => {
    const waits = [25, 20, 10, 0, -10].map(
      (caseC) => condensationWait({ ...warmRoom, caseC }).waitMinutes ?? NaN,
    );
    expect(waits[0]).toBe(0);
    expect(waits).toEqual([...waits].sort((one, other) => one - other));
    expect(waits[4]).toBeGreaterThan(40);
  });

  it("never ends in air that is saturated", () => {
    const fog = { airC: 10, humidityPct: 100, timeConstantMinutes: 40 };
    expect(condensationWait({ ...fog, caseC: 2 })).toMatchObject({ isSweating: true, waitMinutes: null });
    expect(condensationWait({ ...fog, caseC: 10 }).waitMinutes).toBe(0);
  });
});
