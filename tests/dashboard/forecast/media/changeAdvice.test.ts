import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { changeAdvice } from "../../../../dashboard/forecast/media/changeAdvice.ts";
import { costAt, costAtEmpty } from "../../../../dashboard/forecast/media/changeCosts.ts";
import { aDemandAhead, type KnownDemand } from "../../../support/aDemandAhead.ts";
import { anyDemand } from "../../../support/anyDemand.ts";
import { hourMs, minuteMs, sixAtMs } from "../../../support/aStoredItem.ts";

/** Minutes after 20:10. */
const at = (minute: number) => sixAtMs + 2 * hourMs + (10 + minute) * minuteMs;

/** 30 sheets an hour until 20:40, 8 until 21:00, then 60 until the close at 23:00; one sheet a session. */
const lullThenRush: KnownDemand = {
  ...{ atMs: at(0), untilAtMs: at(170), sheetsPerSession: 1, spread: 0 },
  perHour: [
    [at(0), 30],
    [at(30), 8],
    [at(50), 60],
  ],
};
const even = (sheetsPerHour: number): KnownDemand => ({ ...lullThenRush, perHour: [[at(0), sheetsPerHour]] });
const adviceFor = (known: KnownDemand, sheets: number, spares: number | null = 1) =>
  changeAdvice(aDemandAhead(known), sheets, spares);

// Source: worked by hand. 15 sheets until 20:40 and 2.67 until 21:00 leave 44.3, which the rush uses in 44.3
// minutes; three minutes of 60 an hour are 3 groups, of 8 an hour 0.4.
describe("62 left at 20:10 before a lull and a rush", () => {
  it("end about 21:44 and then keep about three groups waiting", () => {
    const atEmpty = costAtEmpty(aDemandAhead(lullThenRush), 62);
    expect(Math.abs((atEmpty?.atMs ?? 0) - at(94.3)) / minuteMs).toBeLessThan(2);
    expect(atEmpty?.groupsDelayed).toBeCloseTo(3, 1);
    expect(atEmpty?.sheetsSetAside).toBe(0);
  });

  it("changed at 20:45 keep 0.4 groups waiting and set about 46 sheets aside", () => {
    const cost = costAt(aDemandAhead(lullThenRush), 62, at(35));
    expect(cost.groupsDelayed).toBeCloseTo(0.4, 6);
    expect(cost.sheetsSetAside).toBeCloseTo(46.3, 1);
  });

  it("are best changed in the lull, not at its very end", () => {
    const advice = adviceFor(lullThenRush, 62);
    expect(advice?.lull).toEqual({ fromAtMs: at(30), toAtMs: at(50) });
    expect(advice?.advised.atMs).toBeGreaterThanOrEqual(at(30));
    expect(advice?.advised.atMs).toBeLessThanOrEqual(at(45));
    expect(advice?.advised.groupsDelayed).toBeCloseTo(0.4, 6);
    expect(advice?.emptyBeforeChance).toBeLessThan(0.001);
  });
});

describe("the moment to change", () => {
  it("is the end itself, with the next roll in hand, on an evening without a lull", () => {
    const advice = adviceFor(even(40), 60);
    expect(advice?.advised).toEqual(advice?.atEmpty);
    expect(advice?.lull).toBeNull();
  });

  it("is the end where a lull would set a great deal aside", () => {
    const advice = adviceFor({ ...lullThenRush, untilAtMs: at(600) }, 400);
    expect(advice?.advised).toEqual(advice?.atEmpty);
  });

  it("is now when what is left is not enough for the next group", () => {
    const two = { ...even(60), sheetsPerSession: 2 };
    expect(adviceFor(two, 1)?.advised.atMs).toBe(at(0));
    expect(adviceFor(two, 1)?.advised.sheetsSetAside).toBeCloseTo(1, 6);
    expect(adviceFor(two, 12)?.advised.atMs).toBeGreaterThan(at(5));
  });

  it("is now with an empty roll", () => {
    const advice = adviceFor(even(40), 0);
    expect(advice?.advised).toMatchObject({ atMs: at(0), sheetsSetAside: 0 });
    expect(advice?.emptyBeforeChance).toBe(1);
  });

  it("comes the sooner the surer the roll is to end in the lull's rush", () => {
    const unsure = adviceFor({ ...lullThenRush, spread: 0.8 }, 150);
    expect(unsure?.advised).toEqual(unsure?.atEmpty);
  });
});

describe("no advice", () => {
  it("is given while the roll lasts", () => {
    expect(adviceFor(even(10), 100)).toBeNull();
  });

  it("is given without a spare, and is given when nobody knows of spares", () => {
    expect(adviceFor(lullThenRush, 62, 0)).toBeNull();
    expect(adviceFor(lullThenRush, 62, null)).not.toBeNull();
  });

  it("is given when nobody comes, or the close has passed", () => {
    expect(adviceFor(even(0), 1)).toBeNull();
    expect(adviceFor({ ...lullThenRush, untilAtMs: at(0) }, 5)).toBeNull();
    expect(adviceFor({ ...lullThenRush, untilAtMs: at(-30) }, 0)).toBeNull();
  });
});

describe("whatever lies ahead", () => {
  it("the advice is numbers, lies before the close, and burdens no more groups than the end in a lull", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(500), fc.option(fc.nat(3)), (known, sheets, spares) => {
        const advice = adviceFor(known, sheets, spares);
        if (advice === null) return;
        const { advised, atEmpty, lull, emptyBeforeChance } = advice;
        for (const { atMs, groupsDelayed, sheetsSetAside } of [advised, atEmpty]) {
          expect(atMs >= known.atMs && atMs <= known.untilAtMs).toBe(true);
          expect(groupsDelayed >= 0 && Number.isFinite(groupsDelayed)).toBe(true);
          expect(sheetsSetAside >= 0 && sheetsSetAside <= sheets).toBe(true);
        }
        expect(emptyBeforeChance >= 0 && emptyBeforeChance <= 1).toBe(true);
        if (lull !== null) expect(lull.fromAtMs <= advised.atMs && advised.atMs < lull.toAtMs).toBe(true);
        expect(spares).not.toBe(0);
      }),
      { numRuns: 100 },
    );
  });

  it("more on the roll sets more aside at the same moment", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(300), fc.nat(100), fc.nat(300), (known, sheets, more, minute) => {
        const ahead = aDemandAhead(known);
        const atMs = known.atMs + minute * minuteMs;
        const [less, plenty] = [sheets, sheets + more].map((each) => costAt(ahead, each, atMs));
        expect(plenty?.sheetsSetAside ?? 0).toBeGreaterThanOrEqual((less?.sheetsSetAside ?? 0) - 0.5);
      }),
      { numRuns: 60 },
    );
  });
});
