import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { SheetInterval } from "../../../../dashboard/booth/sheetPaces.ts";
import { printerPace } from "../../../../dashboard/forecast/air/printerSlowing.ts";

/** Sheets of so many seconds at such temperatures, one after the other. */
function sheets(...runs: readonly (readonly [count: number, intervalS: number, insideC: number | null])[]) {
  return runs.flatMap(([count, intervalS, insideC], run) =>
    Array.from({ length: count }, (_, index): SheetInterval => ({
      atMs: run * 3_600_000 + index * 60_000,
      // A picture more or less dense: within half a second.
      intervalS: intervalS + ((index * 7) % 5) / 10,
      insideC,
    })),
  );
}

describe("a printer's pace", () => {
  it("is slowing with heat when sheets take longer as it gets warmer", () => {
    const seen = printerPace(sheets([12, 14, 30], [6, 19, 37]));
    expect(seen.pace).toBe("slowingWithHeat");
    expect(seen.riseC).toBe(7);
    expect((seen.lateS ?? 0) / (seen.usualS ?? 1)).toBeCloseTo(19 / 14, 1);
  });

  it("is slowing for another reason when it is no warmer, or nobody knows how warm", () => {
    expect(printerPace(sheets([12, 14, 30], [6, 19, 30.5])).pace).toBe("slowingOtherwise");
    expect(printerPace(sheets([12, 14, null], [6, 19, null]))).toMatchObject({
      pace: "slowingOtherwise",
      riseC: null,
    });
  });

  it("is steady in the heat as long as sheets take no longer", () => {
    expect(printerPace(sheets([12, 14, 30], [6, 14.3, 38])).pace).toBe("steady");
    expect(printerPace(sheets([12, 14, 30], [6, 15.5, 38])).pace).toBe("steady");
  });

  it("is not swayed by one jam", () => {
    expect(printerPace(sheets([12, 14, 30], [3, 14, 36], [1, 240, 36], [2, 14, 36])).pace).toBe("steady");
  });

  it("is not known before there are enough sheets", () => {
    expect(printerPace(sheets([7, 14, 30], [6, 30, 40])).pace).toBe("notEnoughData");
    expect(printerPace(sheets([8, 14, 30], [6, 30, 40])).pace).toBe("slowingWithHeat");
    expect(printerPace([]).pace).toBe("notEnoughData");
  });

  it("is seldom called slowing when nothing but chance differs", () => {
    let [cries, runs] = [0, 0];
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 100, max: 200 }), { minLength: 24, maxLength: 24 }),
        (tenths) => {
          const intervals = tenths.map((each, index) => ({
            atMs: index,
            intervalS: each / 10,
            insideC: 30 + index / 4,
          }));
          runs += 1;
          if (printerPace(intervals).pace !== "steady") cries += 1;
        },
      ),
      { seed: 4, numRuns: 2000 },
    );
    expect(runs).toBe(2000);
    expect(cries / runs).toBeLessThan(0.005);
  });
});
