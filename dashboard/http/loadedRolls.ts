import { loadedInput, type Booking, type LoadedRolls, type StockMove } from "@boothward/shared-types";
import { effectiveMoves } from "../planning/stock/effectiveMoves.ts";
import { caseOf, places } from "../planning/stock/places.ts";
import { stockAt, stockOf } from "../planning/stock/stockOf.ts";
import { no, readBody, type Answer } from "./answer.ts";
import { lineOf } from "./stockLines.ts";
import type { HttpSurroundings } from "./surroundings.ts";

const noSuchBooking = no(404, "noSuchBooking", "There is no such booking; it may have been taken out.");

/** Rolls that a booth's case takes from the store for a booking, as they are ticked on the list for the van. */
export function loadedRolls({ store, makeId }: Pick<HttpSurroundings, "store" | "makeId">) {
  async function withLines(
    bookingId: string,
    answer: (booking: Booking, known: ReturnType<typeof loadsOf>) => Answer | Promise<Answer>,
  ): Promise<Answer> {
    const booking = await store.bookings.byId(bookingId);
    if (booking === null) return noSuchBooking;
    return answer(booking, loadsOf(booking, await store.stock.moves()));
  }

  /** Takes back what was written before, and writes the rest; what is asked twice is done once. */
  async function load(bookingId: string, body: unknown, by: string, atMs: number): Promise<Answer> {
    const read = readBody(loadedInput, body);
    if ("refusal" in read) return read.refusal;
    const { rolls } = read.value;
    return withLines(bookingId, async ({ boothId }, { now, standing, written, timesTaken }) => {
      if (rolls === now.moved) return { status: 200, body: now };
      const inStore = now.inStore + now.moved;
      if (rolls > inStore)
        return no(
          409,
          "notInStore",
          `By the ledger ${inStore} are in the store: count what is there.`,
          "rolls",
        );
      const line = (over: Partial<StockMove>, onceKey: string) => lineOf(makeId(), over, by, onceKey, atMs);
      const back = standing.map(({ moveId }) =>
        line({ why: "takenBack", takes: moveId }, `unloaded ${moveId} ${timesTaken(moveId)}`),
      );
      const moved = { fromPlace: places.store, toPlace: caseOf(boothId), rolls, why: "loaded" as const };
      const next = line({ ...moved, boothId, bookingId }, `loaded ${bookingId} ${written}`);
      await store.stock.add(rolls === 0 ? back : [...back, next]);
      return { status: 200, body: { moved: rolls, inStore: inStore - rolls } satisfies LoadedRolls };
    });
  }

  return {
    see: (bookingId: string) => withLines(bookingId, (_, { now }) => ({ status: 200, body: now })),
    load,
  };
}

/** The lines that were written for a booking so, those that stand, and what they come to. */
function loadsOf({ bookingId }: Booking, moves: readonly StockMove[]) {
  const isLoad = (move: StockMove) => move.bookingId === bookingId && move.why === "loaded";
  const standing = effectiveMoves(moves).filter(isLoad);
  const now: LoadedRolls = {
    moved: standing.reduce((sum, { rolls }) => sum + rolls, 0),
    inStore: stockAt(stockOf(moves), places.store).fullRolls,
  };
  // A taking back may be taken back on the Stock page: the next is another one.
  const timesTaken = (moveId: string) => moves.filter(({ takes }) => takes === moveId).length;
  return { now, standing, written: moves.filter(isLoad).length, timesTaken };
}
