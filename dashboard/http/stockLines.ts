import { countInput, moveInput, orderInput, type StockMove } from "@boothward/shared-types";
import * as z from "zod";
import { ordersOf } from "../planning/stock/ordersOf.ts";
import { placeParts, places } from "../planning/stock/places.ts";
import { no, readBody, type Answer } from "./answer.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const said = z.object({ onceKey: z.string().min(1).max(80) });
const arrival = said.extend({ rolls: z.int().min(1).max(10_000) });

const noSuchOrder = no(404, "noSuchOrder", "There is no such order; it may have been taken back.");
const noSuchMove = no(404, "noSuchMove", "There is no such line in the stock.");
const saidAtBooth = no(
  409,
  "saidAtBooth",
  "This line comes from what was said at a booth: take it back on the booth's page.",
);

/** A line of the ledger that a person writes now; `over` says what of it is not as usual. */
export function lineOf(
  moveId: string,
  over: Partial<StockMove>,
  by: string,
  onceKey: string,
  atMs: number,
): StockMove {
  return {
    ...{ moveId, onceKey, atMs, saidAtMs: atMs, by },
    ...{ fromPlace: places.unexplained, toPlace: places.unexplained, rolls: 0, partialSheets: null },
    ...{ why: "corrected", counted: null, takes: null, boothId: null, bookingId: null, orderId: null },
    ...{ note: null, ...over },
  };
}

/** Lines that people add to the ledger of the stock. One that is sent twice is there once. */
export function stockLines({ store, makeId }: Pick<HttpSurroundings, "store" | "makeId">) {
  /** Adds a line; one that was sent before is answered as it was then. */
  async function add(move: StockMove): Promise<Answer> {
    await store.stock.add([move]);
    const kept = await store.stock.byOnceKey(move.onceKey);
    return {
      status: kept?.moveId === move.moveId ? 201 : 200,
      body: { moveId: kept?.moveId ?? move.moveId },
    };
  }

  const line = (over: Partial<StockMove>, by: string, onceKey: string, atMs: number) =>
    lineOf(makeId(), over, by, onceKey, atMs);

  /** A place that names a booth or event must be one of ours. */
  async function wrongPlace(field: string, place: string): Promise<Answer | null> {
    const { kind, id } = placeParts(place);
    if (id === null) return null;
    const isThere =
      kind === "case"
        ? (await store.booths.byId(id)) !== null
        : (await store.bookings.byId(id)) !== null || (await hasMoves(place));
    return isThere ? null : no(400, "wrongField", `${field}: there is no ${kind} ${id}.`, field);
  }

  /** An event that was taken off the run sheet may still have rolls to bring back. */
  async function hasMoves(place: string): Promise<boolean> {
    const moves = await store.stock.moves();
    return moves.some(({ fromPlace, toPlace }) => fromPlace === place || toPlace === place);
  }

  async function move(body: unknown, by: string, nowMs: number): Promise<Answer> {
    const read = readBody(moveInput, body);
    if ("refusal" in read) return read.refusal;
    const { onceKey, atMs, ...moved } = read.value;
    if (atMs !== null && atMs > nowMs)
      return no(400, "wrongField", `atMs: ${atMs} has not come yet.`, "atMs");
    const wrong =
      (await wrongPlace("fromPlace", moved.fromPlace)) ?? (await wrongPlace("toPlace", moved.toPlace));
    return wrong ?? add({ ...line(moved, by, onceKey, nowMs), atMs: atMs ?? nowMs });
  }

  async function count(body: unknown, by: string, atMs: number): Promise<Answer> {
    const read = readBody(countInput, body);
    if ("refusal" in read) return read.refusal;
    const { onceKey, place, note, ...counted } = read.value;
    const wrong = await wrongPlace("place", place);
    return wrong ?? add(line({ toPlace: place, why: "counted", counted, note }, by, onceKey, atMs));
  }

  async function order(body: unknown, by: string, atMs: number): Promise<Answer> {
    const read = readBody(orderInput, body);
    if ("refusal" in read) return read.refusal;
    const { onceKey, ...ordered } = read.value;
    const before = await store.stock.byOnceKey(onceKey);
    if (before !== null) return { status: 200, body: { orderId: before.orderId } };
    const orderId = makeId();
    const { rolls, note } = ordered;
    const moved = { fromPlace: places.supplier, toPlace: places.order, why: "ordered" as const };
    await store.stock.addOrder(
      { orderId, orderedAtMs: atMs, ...ordered },
      line({ ...moved, rolls, note, orderId }, by, onceKey, atMs),
    );
    return { status: 201, body: { orderId } };
  }

  async function arrived(orderId: string, body: unknown, by: string, atMs: number): Promise<Answer> {
    const read = readBody(arrival, body);
    if ("refusal" in read) return read.refusal;
    const { onceKey, rolls } = read.value;
    const before = await store.stock.byOnceKey(onceKey);
    if (before !== null) return { status: 200, body: { moveId: before.moveId } };
    const found = ordersOf(await store.stock.orders(), await store.stock.moves()).find(
      (each) => each.orderId === orderId,
    );
    if (found === undefined) return noSuchOrder;
    const toCome = found.rolls - found.arrivedRolls;
    if (rolls > toCome)
      return no(
        400,
        "wrongField",
        `rolls: ${toCome} of this order are still to come (it is ${rolls}); write what came beside it as bought.`,
        "rolls",
      );
    const moved = { fromPlace: places.order, toPlace: places.store, why: "arrived" as const };
    return add(line({ ...moved, rolls, orderId }, by, onceKey, atMs));
  }

  async function takeBack(moveId: string, body: unknown, by: string, atMs: number): Promise<Answer> {
    const read = readBody(said, body);
    if ("refusal" in read) return read.refusal;
    if (moveId.startsWith("roll-")) return saidAtBooth;
    if ((await store.stock.move(moveId)) === null) return noSuchMove;
    return add(line({ why: "takenBack", takes: moveId }, by, read.value.onceKey, atMs));
  }

  return { move, count, order, arrived, takeBack };
}
