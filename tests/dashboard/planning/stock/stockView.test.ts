import { describe, expect, it } from "vitest";
import { seasonEndOf, stockView, type StockKnown } from "../../../../dashboard/planning/stock/stockView.ts";
import { aStockMove, bought } from "../../../support/aStockMove.ts";

const dayMs = 86_400_000;
const nowMs = Date.UTC(2026, 4, 4, 12);
const used = (rolls: number) =>
  aStockMove({ moveId: `used-${rolls}`, fromPlace: "case:juniper", toPlace: "used", rolls, why: "used" });
const counted = (fullRolls: number) =>
  aStockMove({
    ...{ moveId: "count", fromPlace: "unexplained", toPlace: "store", rolls: 0, why: "counted" },
    counted: { fullRolls, partials: [] },
  });

function viewOf(known: Partial<StockKnown>) {
  const whole = { written: [], derived: [], orders: [], planned: [], nowMs, ...known };
  return {
    advice: stockView(whole, { serviceLevel: 0.99, olderBefore: null }).advice,
    end: seasonEndOf(whole, { endAtMs: nowMs + 30 * dayMs, shortCost: 8, leftCost: 4 }),
  };
}

describe("advice on the stock", () => {
  it("is none before anybody counted or bought a roll, whatever was put in at the booths", () => {
    expect(viewOf({})).toEqual({ advice: null, end: null });
    expect(viewOf({ derived: [used(2)] })).toEqual({ advice: null, end: null });
    const ordered = aStockMove({ fromPlace: "supplier", toPlace: "order", rolls: 12, why: "ordered" });
    expect(viewOf({ written: [ordered] }).advice).toBeNull();
  });

  it("is none when more was used than ever came", () => {
    expect(viewOf({ written: [counted(1)], derived: [used(2)] }).advice).toBeNull();
  });

  it("is there once rolls were counted or bought, also where a case owes what the store gave it", () => {
    expect(viewOf({ written: [counted(0)] }).advice?.atHand).toBe(0);
    expect(viewOf({ written: [counted(5)], derived: [used(2)] }).advice?.atHand).toBe(3);
    expect(viewOf({ written: [aStockMove(bought(9))] }).advice?.atHand).toBe(9);
  });
});

describe("what to have until a season ends", () => {
  const eventOf = (inDays: number) => ({
    ...{ bookingId: "e", openAtMs: nowMs + inDays * dayMs, mean: 10, sd: 1 },
  });
  const orderFor = (expectedInDays: number) => ({
    ...{ orderId: "o1", rolls: 12, orderedAtMs: nowMs - 3 * dayMs, note: null },
    expectedAtMs: nowMs + expectedInDays * dayMs,
  });
  const short = (expectedInDays: number) =>
    viewOf({
      written: [
        counted(4),
        aStockMove({
          ...{
            moveId: "ordered",
            fromPlace: "supplier",
            toPlace: "order",
            rolls: 12,
            why: "ordered",
            orderId: "o1",
          },
        }),
      ],
      orders: [orderFor(expectedInDays)],
      planned: [eventOf(20)],
    }).end?.rolls;

  it("counts on what is on order only where it comes before the end", () => {
    expect(short(10)).toBe(0);
    expect(short(40)).toBeGreaterThanOrEqual(6);
    expect(short(-1)).toBe(short(40));
  });
});
