import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { diceOf } from "../../../../dashboard/forecast/demand/dice.ts";
import { adviseOrder, type OrderQuestion } from "../../../../dashboard/planning/stock/adviseOrder.ts";
import { enoughChance, rollsEnough } from "../../../../dashboard/planning/stock/enoughUntil.ts";
import { leadTimeOf, likelyLeads } from "../../../../dashboard/planning/stock/leadTime.ts";
import { newsvendor } from "../../../../dashboard/planning/stock/newsvendor.ts";
import { useAhead, type UseAhead } from "../../../../dashboard/planning/stock/useAhead.ts";
import { weeklyUse } from "../../../../dashboard/planning/stock/weeklyUse.ts";
import type { MediaOrder } from "@boothward/shared-types/stock";
import { bought, stockMoves } from "../../../support/aStockMove.ts";

const dayMs = 86_400_000;
const nowMs = Date.UTC(2026, 4, 4, 12);

/** Steady use, independent from period to period. */
function steady(perDay: number, sdPerDay: number): UseAhead {
  return (days) => ({ mean: perDay * days, variance: sdPerDay ** 2 * days });
}

const weekly = (mean: number, sd: number) => steady(mean / 7, sd / Math.sqrt(7));
const exactly = (days: number) => new Float64Array([days]);

describe("the newsvendor's quantity", () => {
  // Cachon & Terwiesch, Matching Supply with Demand 3e, Q12.1: 235.2 with z rounded to 0.44; 234.46 computed with SciPy.
  it("is 234.46 for N(200, 80) and a critical ratio of 8 in 12", () => {
    const { rolls, enoughShare } = newsvendor({ mean: 200, sd: 80 }, { shortCost: 8, leftCost: 4 });
    expect(rolls).toBeCloseTo(234.46, 2);
    expect(enoughShare).toBeCloseTo(2 / 3, 12);
  });

  it("is what is used when that is known, and never below nothing", () => {
    expect(newsvendor({ mean: 7, sd: 0 }, { shortCost: 1, leftCost: 1 }).rolls).toBe(7);
    expect(newsvendor({ mean: 1, sd: 9 }, { shortCost: 1, leftCost: 99 }).rolls).toBe(0);
  });
});

describe("rolls that are enough until an order comes", () => {
  // Taylor's carpet example: inputs published, 326.1 with z 1.65 from memory; z 1.65 is the share 0.95053.
  it("are 326.1 for 30 a day, sigma 5 and ten days", () => {
    expect(rollsEnough(steady(30, 5), exactly(10), 0, 0.950529)).toBeCloseTo(326.1, 1);
  });

  // Published inputs and safety stock 341.35 at z 1.65 (481.2 at 2.326) by the formula of moments, which is
  // held here against the moments of the distribution that is used.
  it("have the mean and the standard deviation of the textbook for demand 100 +- 20 and lead 7 +- 2", () => {
    const leads = likelyLeads({ meanDays: 7, sdDays: 2 });
    const quantiles = Array.from({ length: 400 }, (_, at) =>
      rollsEnough(steady(100, 20), leads, 0, (at + 0.5) / 400),
    );
    const mean = quantiles.reduce((sum, each) => sum + each, 0) / 400;
    const sd = Math.sqrt(quantiles.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 400);
    expect(mean).toBeCloseTo(700, 0);
    expect(Math.abs(1.65 * sd - 341.35)).toBeLessThan(4);
    expect(Math.abs(2.326 * sd - 481.2)).toBeLessThan(5.5);
  });

  // Computed with SciPy: Gamma lead of mean 2 and sd 1.5 weeks, normal use of 4 +- 2 a week.
  it("are 30.0 to 30.2 at 99 % and 20.9 at 95 % when the lead time is skewed; the normal formula keeps 96.8 %", () => {
    const leads = likelyLeads({ meanDays: 14, sdDays: 10.5 });
    const use = weekly(4, 2);
    const most = rollsEnough(use, leads, 0, 0.99);
    expect(most).toBeGreaterThanOrEqual(30.0);
    expect(most).toBeLessThanOrEqual(30.2);
    expect(rollsEnough(use, leads, 0, 0.95)).toBeCloseTo(20.9, 1);
    expect(enoughChance(use, leads, 0, 23.43)).toBeCloseTo(0.968, 3);
  });

  it("agree with a simulation of orders and use", () => {
    const dice = diceOf("lead times", 1);
    const leads = likelyLeads({ meanDays: 14, sdDays: 10.5 });
    const tries = 20_000;
    let enough = 0;
    for (let at = 0; at < tries; at += 1) {
      const weeks = leads[Math.floor(dice.uniform() * leads.length)]! / 7;
      if (4 * weeks + 2 * Math.sqrt(weeks) * dice.normal() <= 20.9) enough += 1;
    }
    expect(Math.abs(enough / tries - 0.95)).toBeLessThan(0.006);
  });

  it("are none when nothing is used", () => {
    expect(rollsEnough(steady(0, 0), exactly(10), 0, 0.99)).toBe(0);
  });
});

describe("the lead time", () => {
  const order = (days: number) => ({
    orderedAtMs: nowMs - 90 * dayMs,
    arrivedAtMs: nowMs + (days - 90) * dayMs,
  });

  it("is two weeks, give or take one and a half, before any order is known", () => {
    expect(leadTimeOf([])).toEqual({ meanDays: 14, sdDays: 10.5, orders: 0 });
    expect(leadTimeOf([{ orderedAtMs: nowMs, arrivedAtMs: null }]).orders).toBe(0);
  });

  it("goes to what the orders showed", () => {
    const known = leadTimeOf(Array.from({ length: 60 }, (_, at) => order(at % 2 === 0 ? 4 : 6)));
    expect(known.meanDays).toBeCloseTo(5.3, 1);
    expect(known.sdDays).toBeLessThan(3.2);
  });
});

describe("use ahead", () => {
  const inDays = (days: number, mean = 2, sd = 0.5) => ({ openAtMs: nowMs + days * dayMs, mean, sd });

  it("is what the run sheet holds, event after event", () => {
    const use = useAhead([inDays(3), inDays(5, 1)], null, nowMs, 10);
    expect([2.9, 3, 5].map((days) => use(days).mean)).toEqual([0, 2, 3]);
    expect(use(9).variance).toBeCloseTo(0.5, 12);
  });

  it("fills weeks after the next two up to what weeks used lately", () => {
    const use = useAhead([inDays(17, 3)], { mean: 4, sd: 1, weeks: 20 }, nowMs, 10);
    expect(use(14).mean).toBe(0);
    expect(use(21).mean).toBeCloseTo(4, 12);
    expect(use(28).mean).toBeCloseTo(8, 12);
  });

  it("is learned from weeks with and without an event, once there are four", () => {
    const used = (days: number) => ({
      ...{ atMs: nowMs - days * dayMs, fromPlace: "case:juniper", toPlace: "used", why: "used" as const },
    });
    expect(weeklyUse(stockMoves({ ...bought(9), atMs: nowMs - 20 * dayMs }, used(3)), nowMs)).toBeNull();
    const known = weeklyUse(
      stockMoves(
        { ...bought(9), atMs: nowMs - 57 * dayMs },
        { ...used(3), rolls: 3 },
        { ...used(10), rolls: 1 },
      ),
      nowMs,
    );
    expect(known?.weeks).toBe(8);
    expect(known?.mean).toBeCloseTo(0.5, 12);
  });
});

describe("the advice on ordering", () => {
  const lead = { meanDays: 14, sdDays: 10.5, orders: 0 };
  const weeks = Array.from({ length: 26 }, (_, week) => ({
    ...{ openAtMs: nowMs + (7 * week + 5) * dayMs, mean: 4, sd: 2 },
  }));
  const ask = (over: Partial<OrderQuestion> = {}) =>
    adviseOrder({
      ...{
        atHand: 40,
        onOrder: 0,
        orders: [],
        planned: weeks,
        weekly: null,
        lead,
        serviceLevel: 0.99,
        nowMs,
        ...over,
      },
    });
  const dayOf = (over: Partial<OrderQuestion>) => ask(over).orderByAtMs ?? Infinity;

  it("names a day before the rolls are used up, and a quantity that lasts four weeks more", () => {
    const advice = ask();
    expect(advice.isLate).toBe(false);
    expect(advice.orderByAtMs).toBeGreaterThan(nowMs);
    // 40 rolls last ten weeks; the lead time takes up to seven of them.
    expect(advice.orderByAtMs).toBeLessThan(nowMs + 5 * 7 * dayMs);
    expect(advice.rolls).toBeGreaterThan(10);
    expect(advice.neededNow).toBeGreaterThan(25);
  });

  it("says that it is late when even an order of today may not come in time", () => {
    const advice = ask({ atHand: 3 });
    expect([advice.isLate, advice.orderByAtMs]).toEqual([true, nowMs]);
  });

  it("names no day when all that is ahead is covered", () => {
    expect(ask({ atHand: 400 })).toMatchObject({ orderByAtMs: null, rolls: 0, isLate: false });
    expect(ask({ planned: [] })).toMatchObject({ orderByAtMs: null, neededNow: 0 });
  });

  it("counts rolls on order, and a debt of rolls against them", () => {
    expect(dayOf({ onOrder: 20 })).toBeGreaterThan(dayOf({}));
    expect(ask({ atHand: -3 }).rolls).toBe(ask({ atHand: 0 }).rolls + 3);
  });

  // 4 +- 2 rolls a week: ten last one week at 95 % and not two, 8 + 1.645 x 2.83 = 12.7 (table of the normal curve).
  it("says which event an order comes too late for, by the day it is expected on", () => {
    const order = (over: Partial<MediaOrder>): MediaOrder => ({
      ...{ orderId: "o1", rolls: 100, orderedAtMs: nowMs - dayMs, expectedAtMs: null, note: null },
      ...{ arrivedRolls: 0, arrivedAtMs: null, ...over },
    });
    const short = (...orders: MediaOrder[]) =>
      ask({ atHand: 10, onOrder: 100, orders, serviceLevel: 0.95 }).shortAtMs;
    const week = (at: number) => weeks[at]?.openAtMs ?? NaN;
    expect(short(order({ expectedAtMs: week(1) - dayMs }))).toBe(null);
    expect(short(order({ expectedAtMs: week(1) + dayMs }))).toBe(week(1));
    // Expected yesterday, and not there: nobody knows when.
    expect(short(order({ expectedAtMs: nowMs - dayMs }))).toBe(week(1));
    // Nobody knows when: orders of 14 +- 10.5 days keep, at 95 %, about five weeks.
    expect(short(order({}))).toBe(week(1));
    expect(short(order({ orderedAtMs: nowMs - 30 * dayMs }))).toBe(null);
    // One that came whole is at hand, and what nothing on order would mend is the advice's own matter.
    expect(short(order({ arrivedRolls: 100, arrivedAtMs: nowMs }))).toBe(null);
  });

  it("is never later for a higher service level, nor earlier for more rolls", () => {
    const anyAdvice = fc.record({
      atHand: fc.integer({ min: 0, max: 80 }),
      more: fc.integer({ min: 0, max: 20 }),
      low: fc.double({ min: 0.5, max: 0.97, noNaN: true }),
      meanDays: fc.double({ min: 2, max: 40, noNaN: true }),
      cv: fc.double({ min: 0.1, max: 1, noNaN: true }),
    });
    fc.assert(
      fc.property(anyAdvice, ({ atHand, more, low, meanDays, cv }) => {
        const its = { atHand, lead: { meanDays, sdDays: cv * meanDays, orders: 5 } };
        const day = dayOf({ ...its, serviceLevel: low });
        expect(dayOf({ ...its, serviceLevel: low + 0.02 })).toBeLessThanOrEqual(day);
        expect(dayOf({ ...its, atHand: atHand + more, serviceLevel: low })).toBeGreaterThanOrEqual(day);
      }),
      { numRuns: 40 },
    );
  });
});
