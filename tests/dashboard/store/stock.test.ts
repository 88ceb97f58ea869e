import { describe, expect, it } from "vitest";
import { aStockMove, bought, stockMoves } from "../../support/aStockMove.ts";
import { aStore } from "../../support/aStore.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";

const order = { orderId: "o1", rolls: 12, orderedAtMs: sixAtMs, expectedAtMs: null, note: null };

describe("the ledger of the stock in the store", () => {
  it("gives back every line as it was written, in the order of happening", async () => {
    const { store } = await aStore();
    const counted = { fullRolls: 9, partials: [158, 64] };
    const lines = stockMoves(
      bought(20),
      { rolls: 0, partialSheets: 158 },
      { rolls: 0, why: "counted", fromPlace: "unexplained", toPlace: "store", counted, note: "by hand" },
      { rolls: 0, why: "takenBack", takes: "m1" },
    );
    await store.stock.add([...lines].reverse());
    expect(await store.stock.moves()).toEqual(lines);
    expect(await store.stock.move("m3")).toEqual(lines[2]);
    expect(await store.stock.move("m9")).toBeNull();
  });

  it("keeps one line for each key, the first", async () => {
    const { store } = await aStore();
    await store.stock.add([aStockMove({ moveId: "first", onceKey: "k", rolls: 3 })]);
    await store.stock.add([aStockMove({ moveId: "again", onceKey: "k", rolls: 5 })]);
    expect(await store.stock.moves()).toMatchObject([{ moveId: "first", rolls: 3 }]);
    expect(await store.stock.byOnceKey("k")).toMatchObject({ moveId: "first" });
  });

  it("writes all lines of a call or none", async () => {
    const { store } = await aStore();
    const many = Array.from({ length: 1_200 }, (_, at) => aStockMove({ moveId: `m${at}` }));
    const twice = [...many, aStockMove({ moveId: "m3", onceKey: "another" })];
    await expect(store.stock.add(twice)).rejects.toThrow(/UNIQUE/);
    expect(await store.stock.moves()).toEqual([]);
    await store.stock.add(many);
    expect(await store.stock.moves()).toHaveLength(1_200);
  });

  it("writes an order with its move, or neither", async () => {
    const { store } = await aStore();
    const ordered = aStockMove({
      fromPlace: "supplier",
      toPlace: "order",
      rolls: 12,
      why: "ordered",
      orderId: "o1",
    });
    await store.stock.addOrder(order, ordered);
    expect(await store.stock.orders()).toEqual([order]);
    expect(await store.stock.moves()).toEqual([ordered]);
    const clashing = { ...ordered, onceKey: "new" };
    await expect(store.stock.addOrder({ ...order, orderId: "o2" }, clashing)).rejects.toThrow(/UNIQUE/);
    expect(await store.stock.orders()).toEqual([order]);
  });
});
