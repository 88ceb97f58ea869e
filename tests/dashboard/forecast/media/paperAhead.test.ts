import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { paperAhead, sheetsPerHourNow } from "../../../../dashboard/forecast/media/paperAhead.ts";
import { paperCourse } from "../../../../dashboard/forecast/media/paperCourse.ts";
import { aDemandAhead, type KnownDemand } from "../../../support/aDemandAhead.ts";
import { anyDemand } from "../../../support/anyDemand.ts";
import { minuteMs, sixAtMs } from "../../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const sure = (sheets: number) => ({ sheetsLeft: sheets, lowSheets: sheets, highSheets: sheets });

/** 40 sheets an hour from 18:00 to 23:00. */
function even(over: Partial<KnownDemand> = {}) {
  const known = { atMs: at(0), untilAtMs: at(300), sheetsPerSession: 2, spread: 0.25 };
  return aDemandAhead({ ...known, perHour: [[at(0), 40]], ...over });
}

const ahead = (sheets: number, demand = even(), closeAtMs = at(300)) =>
  paperAhead(paperCourse(demand, sure(sheets)), sure(sheets), closeAtMs);

describe("the paper until the close", () => {
  it("goes down in steps of five minutes, the close last", () => {
    const { fan, leftAtClose } = ahead(300, even({ atMs: at(2) }), at(300));
    expect(fan.slice(0, 3).map(({ atMs }) => atMs)).toEqual([at(2), at(5), at(10)]);
    expect(fan.at(-1)).toEqual({ atMs: at(300), ...leftAtClose });
    expect(fan[0]).toEqual({ atMs: at(2), p10: 300, p50: 300, p90: 300 });
  });

  // Source: SciPy, computed independently (negative binomial). Plan 45/h, cv 0.4, 84 sheets in 1.5 h: the rate
  // is 55.07 +- 5.80 sheets an hour; 2.5 h are left.
  const learned = even({ untilAtMs: at(150), perHour: [[at(0), 55.0725]], spread: 1 / Math.sqrt(90.25) });
  it.each([
    [110, 0.941],
    [130, 0.659],
    [150, 0.256],
    [170, 0.05],
    [190, 0.005],
  ])("of %i sheets is used up in 2.5 h with a chance of %f", (sheets, expected) => {
    expect(1 - ahead(sheets, learned, at(150)).lastsChance).toBeCloseTo(expected, 3);
  });

  it("is empty when the chance reaches 10, 50 and 90 %", () => {
    const { emptyAtMs } = ahead(100);
    // 100 sheets at 40 an hour: 2.5 hours, sooner or later by a quarter.
    expect(emptyAtMs.p50).toBeGreaterThan(at(145));
    expect(emptyAtMs.p50).toBeLessThan(at(165));
    expect(emptyAtMs.p10).toBeLessThan(at(130));
    expect(emptyAtMs.p90).toBeGreaterThan(at(190));
  });

  it("falls short by what is missing at the close, and says so below zero", () => {
    expect(ahead(100).leftAtClose.p50).toBeLessThan(-85);
    expect(ahead(100).lastsChance).toBeLessThan(0.05);
  });

  it("is as wide at its beginning as what is in doubt on the roll", () => {
    const doubtful = { sheetsLeft: 80, lowSheets: 60, highSheets: 110 };
    const { fan, emptyAtMs } = paperAhead(paperCourse(even(), doubtful), doubtful, at(300));
    expect(fan[0]).toMatchObject({ p10: 60, p50: 80, p90: 110 });
    expect(emptyAtMs.p10).toBeLessThan(ahead(80).emptyAtMs.p10 ?? 0);
    expect(emptyAtMs.p90).toBeGreaterThan(ahead(80).emptyAtMs.p90 ?? Infinity);
  });

  it("is empty now with nothing on the roll", () => {
    expect(ahead(0).emptyAtMs).toEqual({ p10: at(0), p50: at(0), p90: at(0) });
    expect(ahead(0).lastsChance).toBe(0);
  });

  it("stays level and lasts when nobody comes", () => {
    const quiet = ahead(5, even({ perHour: [[at(0), 0]] }));
    expect(quiet.lastsChance).toBe(1);
    expect(quiet.leftAtClose).toEqual({ p10: 5, p50: 5, p90: 5 });
  });

  it("has nothing ahead once the close has passed", () => {
    const after = ahead(80, even({ atMs: at(301), untilAtMs: at(301) }));
    const never = { p10: null, p50: null, p90: null };
    expect(after).toEqual({
      ...{ fan: [], emptyAtMs: never, leftAtClose: { p10: 80, p50: 80, p90: 80 }, lastsChance: 1 },
    });
  });
});

describe("sheets an hour now", () => {
  const doorsAtSix: KnownDemand["perHour"] = [
    [at(0), 30],
    [at(30), 90],
  ];

  it("are those of the next quarter of an hour", () => {
    expect(sheetsPerHourNow(even({ perHour: doorsAtSix }), at(0))).toBeCloseTo(30, 9);
    expect(sheetsPerHourNow(even({ atMs: at(30), perHour: doorsAtSix }), at(0))).toBeCloseTo(90, 9);
  });

  it("are those after the opening before it, and none at the close", () => {
    expect(sheetsPerHourNow(even({ atMs: at(-60), perHour: doorsAtSix }), at(0))).toBeCloseTo(30, 9);
    expect(sheetsPerHourNow(even({ atMs: at(300), untilAtMs: at(300) }), at(0))).toBe(0);
  });
});

describe("whatever lies ahead", () => {
  it("is numbers in order that only fall", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(800), fc.nat(300), (known, sheets, doubt) => {
        const paper = { lowSheets: sheets, sheetsLeft: sheets, highSheets: sheets + doubt };
        const { untilAtMs } = known;
        const seen = paperAhead(paperCourse(aDemandAhead(known), paper), paper, untilAtMs);
        for (const { p10, p50, p90 } of [...seen.fan, seen.leftAtClose]) {
          expect([p10, p50, p90].every(Number.isInteger)).toBe(true);
          expect(p10 <= p50 && p50 <= p90).toBe(true);
        }
        seen.fan.slice(1).forEach((point, step) => {
          expect(point.p50).toBeLessThanOrEqual(seen.fan[step]?.p50 ?? Infinity);
        });
        const [first, middle, last] = Object.values(seen.emptyAtMs).map((each) => each ?? Infinity);
        expect((first ?? 0) <= (middle ?? 0) && (middle ?? 0) <= (last ?? 0)).toBe(true);
        expect(seen.lastsChance >= 0 && seen.lastsChance <= 1).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it("lasts the better the more is on the roll, and is empty no sooner", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(400), fc.nat(200), (known, sheets, more) => {
        const demand = aDemandAhead(known);
        const [less, plenty] = [sheets, sheets + more].map((each) => ahead(each, demand, known.untilAtMs));
        if (less === undefined || plenty === undefined) throw new Error("nothing ahead");
        expect(plenty.lastsChance).toBeGreaterThanOrEqual(less.lastsChance);
        expect(plenty.leftAtClose.p50 - less.leftAtClose.p50).toBe(more);
        for (const share of ["p10", "p50", "p90"] as const) {
          expect(plenty.emptyAtMs[share] ?? Infinity).toBeGreaterThanOrEqual(
            less.emptyAtMs[share] ?? Infinity,
          );
        }
      }),
      { numRuns: 60 },
    );
  });
});
