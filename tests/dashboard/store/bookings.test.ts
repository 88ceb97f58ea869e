import type { Booking } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { aPlan } from "../../support/aPlan.ts";
import { aStore } from "../../support/aStore.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";

describe("many bookings that are written together", () => {
  async function threeInStore() {
    const { store, boothId } = await aStore();
    const booking = (day: number, client: string): Booking => {
      const openAtMs = sixAtMs + 24 * day * hourMs;
      return {
        bookingId: `b${day}`,
        ...aPlan(boothId, { client, openAtMs, closeAtMs: openAtMs + 5 * hourMs }),
      };
    };
    await store.bookings.saveAll([booking(0, "Ivy"), booking(1, "Oak"), booking(2, "Elm")]);
    const clients = async () => (await store.bookings.all()).map(({ client }) => client);
    return { bookings: store.bookings, booking, clients };
  }

  it("are written where the plan is as they were made from, but for bookings that are none of theirs", async () => {
    const { bookings, booking, clients } = await threeInStore();
    const asRead = await bookings.all();
    await bookings.save(booking(2, "Elm Hall"));
    expect(await bookings.saveAll([booking(1, "Oak Hall"), booking(3, "Fir")], asRead)).toBe(true);
    expect(await clients()).toEqual(["Ivy", "Oak Hall", "Elm Hall", "Fir"]);
  });

  it.each(["added", "taken out", "changed"])(
    "are all kept out where one of them was %s since",
    async (how) => {
      const { bookings, booking, clients } = await threeInStore();
      const asRead = await bookings.all();
      if (how === "added") await bookings.save(booking(5, "Ash"));
      if (how === "taken out") await bookings.remove("b2");
      if (how === "changed") await bookings.save(booking(1, "Oak, later"));
      const before = await clients();
      expect(await bookings.saveAll([booking(1, "Oak Hall"), booking(3, "Fir")], asRead)).toBe(false);
      expect(await clients()).toEqual(before);
    },
  );
});
