import { expect, it } from "vitest";
import { planFileRoutes } from "../../../dashboard/http/planFileRoutes.ts";
import type { Store } from "../../../dashboard/store/openStore.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aStore } from "../../support/aStore.ts";

it("keeps nothing of a file where somebody changed the run sheet while it was read", async () => {
  const { store, boothId } = await aStore();
  // The booths are asked for after the bookings: that is when the other one is added.
  const slow: Store = {
    ...store,
    booths: {
      ...store.booths,
      all: async () => {
        await store.bookings.save({ bookingId: "others", ...aPlan(boothId) });
        return store.booths.all();
      },
    },
  };
  const told: string[] = [];
  const routes = planFileRoutes({
    store: slow,
    makeId: () => "new",
    onPlanChanged: (changed) => Promise.resolve(void told.push(changed)),
  });
  const text = "booth,client,kind,opens,closes\nJuniper,Ivy Hall,party,2026-07-20 18:00,2026-07-20 23:00\n";
  const answer = await routes
    .find(({ path }) => path.endsWith("/import"))
    ?.handle({
      ...{ params: {}, query: {}, device: "", host: null, fromAddress: null, atMs: 0 },
      body: { format: "csv", text, zone: "UTC", isLook: false },
      signed: { role: "owner", tokenHash: "", accountId: "a", name: "Ama", expiresAtMs: 1 },
    });
  expect(answer).toMatchObject({ status: 409, body: { error: "changedMeanwhile" } });
  expect((await store.bookings.all()).map(({ bookingId }) => bookingId)).toEqual(["others"]);
  expect(told).toEqual([]);
});
