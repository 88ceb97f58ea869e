import { loadedRolls } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { aPlan } from "../../support/aPlan.ts";
import { request } from "../../support/aRequest.ts";
import { aStockedDashboard, buy, fullAt, see } from "../../support/aStockedDashboard.ts";

/** A dashboard with twenty rolls in the store and a booking. */
async function aBookedDashboard() {
  const { dashboard, api, boothId, clock } = await aStockedDashboard();
  const { bookingId } = await api.post("/api/bookings", aPlan(boothId), z.object({ bookingId: z.string() }));
  const headers = { cookie: api.cookie(), origin: dashboard.url };
  const path = `/api/bookings/${bookingId}/loaded`;
  const load = (rolls: unknown, to = path) =>
    request(dashboard.url, to, { method: "PUT", body: { rolls }, headers });
  const loaded = async () => loadedRolls.parse((await request(dashboard.url, path, { headers })).body);
  const places = async () => {
    const view = await see(api);
    return [fullAt(view, "store"), fullAt(view, `case:${boothId}`)];
  };
  return { dashboard, api, boothId, bookingId, clock, load, loaded, places, path };
}

describe("rolls that are loaded for a booking", () => {
  it("go from the store into the booth's case, once however often it is asked, and back", async () => {
    const { load, loaded, places } = await aBookedDashboard();
    expect(await loaded()).toEqual({ moved: 0, inStore: 20 });
    const twice = await Promise.all([load(3), load(3)]);
    expect(twice.map(({ status }) => status)).toEqual([200, 200]);
    expect((await load(3)).body).toEqual({ moved: 3, inStore: 17 });
    expect([await loaded(), await places()]).toEqual([{ moved: 3, inStore: 17 }, [17, 3]]);
    expect((await load(5)).body).toEqual({ moved: 5, inStore: 15 });
    expect(await places()).toEqual([15, 5]);
    await load(0);
    expect((await load(0)).status).toBe(200);
    expect([await loaded(), await places()]).toEqual([{ moved: 0, inStore: 20 }, [20, 0]]);
    await load(2);
    expect(await places()).toEqual([18, 2]);
  });

  it("are lines of the ledger that can be taken back there too", async () => {
    const { api, load, loaded, bookingId } = await aBookedDashboard();
    await load(4);
    const [line] = (await see(api)).moves;
    expect(line).toMatchObject({ why: "loaded", rolls: 4, bookingId, by: "Ama" });
    await api.post(`/api/stock/moves/${line?.moveId}/take-back`, { onceKey: "mine" }, z.unknown());
    expect(await loaded()).toEqual({ moved: 0, inStore: 20 });
    const [taking] = (await see(api)).moves;
    await api.post(`/api/stock/moves/${taking?.moveId}/take-back`, { onceKey: "not so" }, z.unknown());
    expect(await loaded()).toEqual({ moved: 4, inStore: 16 });
    await load(0);
    expect(await loaded()).toEqual({ moved: 0, inStore: 20 });
    await load(4);
    expect(await loaded()).toEqual({ moved: 4, inStore: 16 });
  });

  it("are no more than the store has, and a whole number of an event that is there", async () => {
    const { api, load, places } = await aBookedDashboard();
    expect(await load(21)).toMatchObject({ status: 409, no: { error: "notInStore", field: "rolls" } });
    for (const wrong of [-1, 1.5, "two", null])
      expect(await load(wrong)).toMatchObject({ status: 400, no: { field: "rolls" } });
    expect(await load(1, "/api/bookings/nobody/loaded")).toMatchObject({ status: 404 });
    expect(await places()).toEqual([20, 0]);
    await buy(api, 1);
    expect((await load(21)).status).toBe(200);
  });
});
