import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { rationing } from "../../../../dashboard/forecast/media/rationing.ts";
import { rollsToClose, sheetsAboard } from "../../../../dashboard/forecast/media/rollsToClose.ts";
import { whatIfs } from "../../../../dashboard/forecast/media/whatIfs.ts";
import { aDemandAhead, type KnownDemand } from "../../../support/aDemandAhead.ts";
import { anyDemand } from "../../../support/anyDemand.ts";
import { minuteMs, sixAtMs } from "../../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const sure = (sheets: number) => ({ sheetsLeft: sheets, lowSheets: sheets, highSheets: sheets });
const aboard = (spareRolls: number | null, partialRolls: number[] = []) => ({
  ...{ kitSheets: 400, spareRolls, partialRolls },
});

/** 60 sheets an hour from 18:00 to 23:00, two a session: 300 in all. */
function known(over: Partial<KnownDemand> = {}): KnownDemand {
  const perHour: KnownDemand["perHour"] = [[at(0), 60]];
  return { atMs: at(0), untilAtMs: at(300), sheetsPerSession: 2, spread: 0.2, perHour, ...over };
}
const lastStep = (demand: ReturnType<typeof aDemandAhead>) => demand.stepsAtMs.length - 1;

describe("rolls until the close", () => {
  const demand = aDemandAhead(known());
  const rolls = (sheets: number, ...rest: Parameters<typeof aboard>) =>
    rollsToClose(demand, lastStep(demand), sure(sheets), aboard(...rest));

  it("are none when 99 nights in 100 have enough with the loaded one", () => {
    const enough = demand.quantile(lastStep(demand), 0.99);
    expect(rolls(enough, 0).needed).toBe(0);
    expect(rolls(enough - 1, 0).needed).toBe(1);
  });

  it("count what each fitting wastes", () => {
    // 99 % of the evenings want 463 sheets; 396 of a kit of 400 reach a guest when four are wasted.
    const enough = demand.quantile(lastStep(demand), 0.99);
    expect(rolls(enough - 396, 0).needed).toBe(1);
    expect(rolls(enough - 397, 0).needed).toBe(2);
  });

  it("last with what is aboard by its chance, and nobody knows it with spares unknown", () => {
    expect(rolls(100, 1).lastsChance).toBeGreaterThan(0.99);
    expect(rolls(100, 0).lastsChance).toBeLessThan(0.001);
    expect(rolls(100, null)).toMatchObject({ needed: 1, spares: null, lastsChance: null });
    expect(rolls(250, 0, [120]).lastsChance).toBeGreaterThan(0.8);
    expect(rolls(250, 0).lastsChance).toBeLessThan(0.3);
  });

  it("are a whole number for a kit of no size at all and a roll larger than any", () => {
    const tiny = { kitSheets: 0, spareRolls: 2, partialRolls: [1] };
    expect(rollsToClose(demand, lastStep(demand), sure(0), tiny).needed).toBeGreaterThan(300);
    expect(sheetsAboard(7, tiny)).toBe(7);
    expect(rolls(5_000, 3).needed).toBe(0);
    expect(rolls(5_000, 3).lastsChance).toBeGreaterThan(1 - 1e-6);
  });
});

describe("one print a session", () => {
  it("still works until the moment after which it saves too little", () => {
    // From 18:00 on 150 sheets instead of 300; 190 are aboard.
    const told = rationing(aDemandAhead(known({ spread: 0 })), 190);
    expect(told?.lastsChanceNow).toBeGreaterThan(0.99);
    // Started after m minutes it takes m + (300 - m) / 2 sheets, which is 168 and two deviations of Poisson at 36.
    expect(told?.latestAtMs).toBeGreaterThanOrEqual(at(20));
    expect(told?.latestAtMs).toBeLessThanOrEqual(at(45));
  });

  it("keeps the risk at 5 % at its latest moment and not a step later", () => {
    const demand = aDemandAhead(known());
    const told = rationing(demand, 250);
    const riskFrom = (atMs: number) => 1 - demand.withSheetsPerSession(1, atMs).atMost(lastStep(demand), 250);
    expect(told?.riskKept).toBe(0.05);
    expect(riskFrom(told?.latestAtMs ?? at(0))).toBeLessThanOrEqual(0.05);
    expect(riskFrom((told?.latestAtMs ?? at(0)) + 5 * minuteMs)).toBeGreaterThan(0.05);
  });

  it("has no latest moment where not even now is enough", () => {
    const told = rationing(aDemandAhead(known()), 100);
    expect(told?.latestAtMs).toBeNull();
    expect(told?.lastsChanceNow).toBeLessThan(0.1);
  });

  it("is not spoken of when paper lasts, sessions take one already, or the close has passed", () => {
    expect(rationing(aDemandAhead(known()), 600)).toBeNull();
    expect(rationing(aDemandAhead(known({ sheetsPerSession: 1 })), 100)).toBeNull();
    expect(rationing(aDemandAhead(known({ untilAtMs: at(0) })), 0)).toBeNull();
  });

  it("works the later the more there is, whatever lies ahead", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(400), fc.nat(100), (any, sheets, more) => {
        const demand = aDemandAhead(any);
        const [less, plenty] = [rationing(demand, sheets), rationing(demand, sheets + more)];
        if (less === null || plenty === null) return;
        expect(plenty.lastsChanceNow).toBeGreaterThanOrEqual(less.lastsChanceNow);
        expect(plenty.latestAtMs ?? -Infinity).toBeGreaterThanOrEqual(less.latestAtMs ?? -Infinity);
      }),
      { numRuns: 60 },
    );
  });
});

describe("what if", () => {
  const longer = aDemandAhead(known({ untilAtMs: at(420) }));
  const asked = (sheets: number) => whatIfs(longer, sure(sheets), aboard(1), at(300));
  const find = (sheets: number, extraMin: number, isOnePrint: boolean) => {
    const found = asked(sheets).find((each) => each.extraMin === extraMin && each.isOnePrint === isOnePrint);
    if (found === undefined) throw new Error(`no what-if of ${extraMin} min`);
    return found;
  };

  it("has 0 to 120 minutes in quarters of an hour, each with one print and without", () => {
    const minutes = [0, 15, 30, 45, 60, 75, 90, 105, 120];
    expect(asked(200).map(({ extraMin }) => extraMin)).toEqual([...minutes, ...minutes]);
    expect(asked(200).map(({ isOnePrint }) => isOnePrint)).toEqual([
      ...minutes.map(() => false),
      ...minutes.map(() => true),
    ]);
  });

  it("is the forecast to the close at 0 minutes, and that to the later one at 60", () => {
    // The middle of a skewed demand lies a little under its mean of 300, 360 and 180.
    expect(Math.abs(find(200, 0, false).leftAtClose.p50 + 96)).toBeLessThan(4);
    expect(Math.abs(find(200, 60, false).leftAtClose.p50 + 156)).toBeLessThan(4);
    expect(find(200, 60, false).fan.at(-1)?.atMs).toBe(at(360));
    expect(Math.abs(find(200, 60, true).leftAtClose.p50 - 22)).toBeLessThan(4);
  });

  it("draws at most 40 points, the first and the last among them", () => {
    for (const { fan, extraMin } of asked(200)) {
      expect(fan.length).toBeLessThanOrEqual(40);
      expect(fan[0]?.atMs).toBe(at(0));
      expect(fan.at(-1)?.atMs).toBe(at(300 + extraMin));
    }
  });

  it("is empty after the close", () => {
    expect(whatIfs(longer, sure(100), aboard(1), at(0))).toEqual([]);
  });

  it("lasts no better the longer it goes on, and better with one print, whatever lies ahead", () => {
    fc.assert(
      fc.property(anyDemand, fc.nat(500), (any, sheets) => {
        const demand = aDemandAhead({ ...any, untilAtMs: any.untilAtMs + 120 * minuteMs });
        const all = whatIfs(demand, sure(sheets), aboard(null), any.untilAtMs);
        all.forEach((each, place) => {
          const before = all[place - 1];
          if (before === undefined || before.isOnePrint !== each.isOnePrint) return;
          expect(each.lastsChance).toBeLessThanOrEqual(before.lastsChance);
          expect(each.rolls.needed).toBeGreaterThanOrEqual(before.rolls.needed);
        });
        all.slice(0, 9).forEach((each, place) => {
          expect(all[place + 9]?.lastsChance).toBeGreaterThanOrEqual(each.lastsChance - 1e-6);
        });
      }),
      { numRuns: 15 },
    );
  });
});
