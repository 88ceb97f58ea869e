import type { StockMove } from "@boothward/shared-types/stock";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { stockAt, stockOf } from "../../../../dashboard/planning/stock/stockOf.ts";
import { bought, stockMoves } from "../../../support/aStockMove.ts";

const anyPlace = fc.constantFrom(
  "store",
  "case:juniper",
  "case:thistle",
  "event:fair",
  "used",
  "lost",
  "order",
);
const anyRolls = fc.oneof(
  fc.record({ rolls: fc.integer({ min: 1, max: 9 }), partialSheets: fc.constant(null) }),
  fc.record({ rolls: fc.constant(0), partialSheets: fc.integer({ min: 1, max: 399 }) }),
);
const anyMove: fc.Arbitrary<Partial<StockMove>> = fc
  .tuple(anyPlace, anyPlace, anyRolls)
  .map(([fromPlace, toPlace, amount]) => ({ fromPlace, toPlace, ...amount }));
const anyBuy: fc.Arbitrary<Partial<StockMove>> = fc
  .integer({ min: 1, max: 30 })
  .map((rolls) => bought(rolls));
const anyCount: fc.Arbitrary<Partial<StockMove>> = fc
  .record({
    fullRolls: fc.integer({ min: 0, max: 20 }),
    partials: fc.array(fc.integer({ min: 1, max: 399 }), { maxLength: 3 }),
  })
  .chain((counted) =>
    fc.constantFrom("store", "case:juniper", "event:fair").map((toPlace) => ({
      ...{ fromPlace: "unexplained", toPlace, rolls: 0, why: "counted" as const, counted },
    })),
  );
/** Takes back the line so many before it; the first has none before it. */
const anyTaking = fc.integer({ min: 1, max: 6 }).map((back) => ({ back }));
const anyLedger = fc
  .array(fc.oneof({ weight: 5, arbitrary: anyMove }, anyBuy, anyCount, anyTaking), { maxLength: 40 })
  .map((lines) =>
    stockMoves(
      ...lines.map((line, at) =>
        "back" in line
          ? { rolls: 0, why: "takenBack" as const, takes: `m${Math.max(1, at + 1 - line.back)}` }
          : line,
      ),
    ),
  );

describe("the stock", () => {
  it("is where the moves took the rolls", () => {
    const stock = stockOf(
      stockMoves(
        bought(20),
        { rolls: 4 },
        { rolls: 3, toPlace: "event:fair" },
        { rolls: 1, fromPlace: "event:fair", toPlace: "used", why: "used" },
        { rolls: 1, toPlace: "lost", why: "lost" },
      ),
    );
    expect(stock.places.map(({ place, fullRolls }) => [place, fullRolls])).toEqual([
      ["store", 12],
      ["case:juniper", 4],
      ["event:fair", 2],
    ]);
    expect([stock.bought, stock.used, stock.lost]).toEqual([20, 1, 1]);
  });

  it("keeps the sheets of a part roll that came off and goes on again", () => {
    const moves = stockMoves(
      bought(2),
      { rolls: 2 },
      { fromPlace: "case:juniper", toPlace: "used", why: "used" },
      { fromPlace: "used", toPlace: "case:juniper", rolls: 0, partialSheets: 158, why: "returned" },
    );
    expect(stockAt(stockOf(moves), "case:juniper")).toEqual({
      ...{ place: "case:juniper", fullRolls: 1, partials: [158], missing: [] },
    });
    const again = stockMoves({ fromPlace: "case:juniper", toPlace: "used", rolls: 0, partialSheets: 155 });
    const later = again.map((move) => ({ ...move, moveId: "again", atMs: move.atMs + 3_600_000 }));
    expect(stockAt(stockOf([...moves, ...later]), "case:juniper").partials).toEqual([]);
  });

  it("goes below nothing where somebody forgot to write, and says so", () => {
    const stock = stockOf(
      stockMoves({ rolls: 2, fromPlace: "case:juniper", toPlace: "used" }, { rolls: 0, partialSheets: 90 }),
    );
    expect(stock.places).toEqual([
      { place: "store", fullRolls: 0, partials: [], missing: [90] },
      { place: "case:juniper", fullRolls: -2, partials: [90], missing: [] },
    ]);
  });

  it("is what a count says, and the difference is unexplained", () => {
    const count = {
      ...{ fromPlace: "unexplained", toPlace: "store", rolls: 0, why: "counted" as const },
      counted: { fullRolls: 9, partials: [200] },
    };
    const stock = stockOf(stockMoves(bought(10), count));
    expect(stockAt(stock, "store")).toEqual({
      ...{ place: "store", fullRolls: 9, partials: [200], missing: [] },
    });
    expect([stock.unexplained, stock.found.get("m2")]).toEqual([1, -1]);
  });

  it("changes what a count found, not what is there, when a move before it is told late", () => {
    const count = {
      ...{ fromPlace: "unexplained", toPlace: "store", rolls: 0, why: "counted" as const },
      counted: { fullRolls: 9, partials: [] },
    };
    const moves = stockMoves(bought(10), count);
    const first = moves[0]!;
    const late = stockMoves({ rolls: 1 }).map((move) => ({
      ...{ ...move, moveId: "late", atMs: first.atMs + 1, saidAtMs: first.atMs + 9_000_000 },
    }));
    const stock = stockOf([...moves, ...late]);
    expect(stockAt(stock, "store").fullRolls).toBe(9);
    expect([stock.unexplained, stock.found.get("m2")]).toEqual([0, 0]);
  });

  it("is as if a move that was taken back had never been, and as before when the taking back is taken back", () => {
    const moves = stockMoves(bought(10), { rolls: 4 });
    const back = stockMoves({}, {}, { rolls: 0, why: "takenBack", takes: "m2" }).slice(2);
    const undone = stockMoves({}, {}, {}, { rolls: 0, why: "takenBack", takes: "m3" }).slice(3);
    expect(stockAt(stockOf([...moves, ...back]), "store").fullRolls).toBe(10);
    expect(stockAt(stockOf([...moves, ...back, ...undone]), "store").fullRolls).toBe(6);
  });

  it("loses no roll whatever was moved, counted and taken back: all places add up to what was bought", () => {
    fc.assert(
      fc.property(anyLedger, (moves) => {
        const { balances, bought: all } = stockOf(moves);
        const inside = balances.filter(({ place }) => place !== "supplier");
        const full = inside.reduce((sum, { fullRolls }) => sum + fullRolls, 0);
        const parts = balances.reduce(
          (sum, { partials, missing }) => sum + partials.length - missing.length,
          0,
        );
        expect(full).toBe(all);
        expect(parts).toBe(0);
      }),
      { numRuns: 400 },
    );
  });

  it("does not depend on the order in which its lines come", () => {
    const shuffled = anyLedger.chain((moves) =>
      fc
        .shuffledSubarray(moves, { minLength: moves.length, maxLength: moves.length })
        .map((other) => [moves, other] as const),
    );
    fc.assert(
      fc.property(shuffled, ([moves, other]) => {
        const inOrder = (each: readonly StockMove[]) =>
          [...stockOf(each).balances].sort((a, b) => (a.place < b.place ? -1 : 1));
        expect(inOrder(other)).toEqual(inOrder(moves));
      }),
    );
  });
});
