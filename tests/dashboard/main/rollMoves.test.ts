import { describe, expect, it } from "vitest";
import type { KnownBooth } from "../../../dashboard/boothsAtWork.ts";
import { openRollMoves } from "../../../dashboard/rollMoves.ts";
import { aBooking } from "../../support/aBooking.ts";
import { stateAfter } from "../../support/aBooth.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { addAgent, aStore } from "../../support/aStore.ts";
import { countingReads } from "../../support/countingReads.ts";

const dayMs = 24 * hourMs;

/** A booth with three events, a roll fitted at the first; `reads` counts how often facts were read. */
async function threeEvents() {
  const { store, boothId } = await aStore();
  await addAgent(store, boothId);
  const bookings = [3, 2, 1].map((daysAgo) => {
    const openAtMs = sixAtMs - daysAgo * dayMs;
    return aBooking({
      bookingId: `days ago ${daysAgo}`,
      boothId,
      openAtMs,
      closeAtMs: openAtMs + 5 * hourMs,
    });
  });
  await store.bookings.saveAll(bookings);
  const settings = await store.booths.byId(boothId);
  if (settings === null) throw new Error("there is no booth");
  const known: KnownBooth = { state: stateAfter([]), settings, bookings, forecast: null, view: null };
  const { store: counting, reads } = countingReads(store);
  const moves = openRollMoves({ store: counting, knownOf: () => known });
  const say = async (daysAgo: number, minute: number) => {
    const atMs = sixAtMs - daysAgo * dayMs + minute * minuteMs;
    const fact = { kind: "rollFitted", sheets: 400, by: "Ama" } as const;
    const stored = await store.boothItems.addAtDashboard(boothId, fact, { atMs, saidAtMs: sixAtMs });
    moves.onStored(boothId, [stored]);
    return stored;
  };
  const of = async () => (await moves.of([], sixAtMs)).map(({ bookingId }) => bookingId);
  return { store, boothId, moves, say, of, reads };
}

describe("moves of rolls from what was said at the booths", () => {
  it("are read once, and from a fact on anew when it comes in", async () => {
    const { say, of, reads } = await threeEvents();
    await say(3, 60);
    expect(await of()).toEqual(["days ago 3"]);
    const first = reads();
    expect(await of()).toEqual(["days ago 3"]);
    expect(reads()).toBe(first);
    await say(1, 60);
    expect(await of()).toEqual(["days ago 3", "days ago 1"]);
    expect(reads()).toBeGreaterThan(first);
    expect(reads() - first).toBeLessThan(first);
  });

  it("are those without a word that was taken back much later", async () => {
    const { store, boothId, moves, say, of } = await threeEvents();
    const { bootId, seq } = await say(3, 60);
    expect(await of()).toEqual(["days ago 3"]);
    const taking = { kind: "takenBack", factBootId: bootId, factSeq: seq, by: "Ama" } as const;
    const times = { atMs: sixAtMs, saidAtMs: sixAtMs };
    moves.onStored(boothId, [await store.boothItems.addAtDashboard(boothId, taking, times)]);
    expect(await of()).toEqual([]);
  });

  it("can be asked for twice at once, and are read once", async () => {
    const { moves, say, of, reads } = await threeEvents();
    await say(3, 60);
    const [one, other] = await Promise.all([of(), of()]);
    expect([one, other]).toEqual([["days ago 3"], ["days ago 3"]]);
    const first = reads();
    await of();
    expect(reads()).toBe(first);
    moves.close();
  });
});
