import type { CordSize } from "@boothward/shared-types";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cords } from "../../../dashboard/planning/cords.ts";
import { cordDropV, powerSum } from "../../../dashboard/planning/powerSum.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";

const metresPerFoot = 0.3048;
const sizes = Object.keys(cords) as CordSize[];

describe("the drop along a cord", () => {
  // 2 I R L with NEC chapter 9 table 8, stranded copper at 75 C (from memory): 10 A, 100 ft, 120 V.
  it.each([
    ["16 AWG", 9.98, 8.3, 36],
    ["14 AWG", 6.28, 5.2, 57],
    ["12 AWG", 3.96, 3.3, 91],
  ] as const)("of %s is %d V, %d %%, and 3 %% at %d ft", (size, dropV, dropPct, longestFt) => {
    const { cord } = powerSum(aPowerPlan({ cord: { lengthM: 100 * metresPerFoot, size } }), null);
    expect(cord?.dropV).toBeCloseTo(dropV, 2);
    expect(cord?.dropPct).toBeCloseTo(dropPct, 1);
    expect((cord?.longestM ?? NaN) / metresPerFoot).toBeCloseTo(longestFt, 0);
  });

  // IEC 60228 class 5 at 20 C (from memory): 230 V, 25 m, 10 A.
  it.each([
    ["1.5 mm2", 6.65, 2.9],
    ["2.5 mm2", 3.99, 1.7],
  ] as const)("of %s is %d V, %d %%", (size, dropV, dropPct) => {
    const loads = [{ what: "All", watts: 2_300 }];
    const { cord } = powerSum(aPowerPlan({ volts: 230, loads, cord: { lengthM: 25, size } }), null);
    expect(cord?.dropV).toBeCloseTo(dropV, 2);
    expect(cord?.dropPct).toBeCloseTo(dropPct, 1);
  });

  it("is 3 % at the longest length, and no advice without a load", () => {
    const cord = { lengthM: 10, size: "14 AWG" } as const;
    const longestM = powerSum(aPowerPlan({ cord }), null).cord?.longestM ?? NaN;
    const atLongest = powerSum(aPowerPlan({ cord: { ...cord, lengthM: longestM } }), null);
    expect(atLongest.cord).toMatchObject({ dropPct: expect.closeTo(3, 9) as number });
    expect(powerSum(aPowerPlan({ cord, loads: [] }), null).cord?.longestM).toBeNull();
  });

  it("grows with length and load, and shrinks with thicker conductors", () => {
    const american = ["18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG"] as const;
    const metric = ["0.75 mm2", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2"] as const;
    for (const family of [american, metric])
      for (const [at, size] of family.entries()) {
        const thinner = family[at - 1];
        if (thinner === undefined) continue;
        expect(cords[size].ohmPerM).toBeLessThan(cords[thinner].ohmPerM);
        expect(cords[size].carriesA).toBeGreaterThan(cords[thinner].carriesA);
      }
    fc.assert(
      fc.property(
        fc.constantFrom(...sizes),
        fc.double({ min: 0.1, max: 50, noNaN: true }),
        fc.double({ min: 0.1, max: 100, noNaN: true }),
        (size, amps, lengthM) =>
          cordDropV(amps * 2, cords[size].ohmPerM, lengthM) > cordDropV(amps, cords[size].ohmPerM, lengthM) &&
          cordDropV(amps, cords[size].ohmPerM, lengthM * 2) > cordDropV(amps, cords[size].ohmPerM, lengthM),
      ),
    );
  });
});

describe("what a cord carries", () => {
  // NEC table 400.5(A), two loaded conductors.
  it.each([
    ["18 AWG", 10],
    ["16 AWG", 13],
    ["14 AWG", 18],
    ["12 AWG", 25],
  ] as const)("is for %s %d A", (size, amps) => {
    const at = (load: number) =>
      powerSum(aPowerPlan({ loads: [{ what: "All", watts: load * 120 }], cord: { lengthM: 1, size } }), null)
        .cord;
    expect(at(amps)).toMatchObject({ carriesA: amps, isOverloaded: false });
    expect(at(amps + 0.1)).toMatchObject({ isOverloaded: true });
  });
});

describe("the breaker", () => {
  // At most 80 % for what runs for hours: NEC 210.20(A) (from memory).
  it.each([
    [1_440, "fine", 80, 0],
    [1_441, "near", 80.06, -1],
    [1_800, "near", 100, -360],
    [1_801, "over", 100.06, -361],
  ])("of 15 A at 120 V with %d W is %s", (watts, level, sharePct, freeWatts) => {
    const { breaker } = powerSum(aPowerPlan({ loads: [{ what: "All", watts }] }), null);
    expect(breaker).toMatchObject({ level, continuousA: 12 });
    expect(breaker?.sharePct).toBeCloseTo(sharePct, 1);
    expect(breaker?.freeWatts).toBeCloseTo(freeWatts, 6);
  });

  it("that is not known is not judged", () => {
    expect(powerSum(aPowerPlan({ breakerA: null }), 5)).toMatchObject({
      breaker: null,
      watts: 1_200,
      amps: 10,
    });
  });
});

describe("a battery", () => {
  // Wh x efficiency / W, with 85 % for the inverter (common practice, no source).
  it("runs for what it holds, less the inverter's share, and is enough with an hour to set up", () => {
    const loads = [{ what: "All", watts: 170 }];
    const lasts = (openHours: number | null, batteryWh = 1_000) =>
      powerSum(aPowerPlan({ source: "battery", batteryWh, loads }), openHours).battery;
    expect(lasts(4)).toEqual({ runsHours: 5, isEnough: true });
    expect(lasts(4.1)).toEqual({ runsHours: 5, isEnough: false });
    expect(lasts(null)).toEqual({ runsHours: 5, isEnough: null });
    expect(powerSum(aPowerPlan({ batteryWh: 1_000, loads: [] }), 4).battery).toEqual({
      ...{ runsHours: null, isEnough: null },
    });
  });
});
