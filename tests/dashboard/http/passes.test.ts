import { describe, expect, it } from "vitest";
import * as z from "zod";
import { openApi, type DashboardApi } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink, sentSession } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { request } from "../../support/aRequest.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";

const madePass = z.object({ passId: z.string(), path: z.string(), endsAtMs: z.number() });
const whoAmI = z.object({
  signedIn: z.nullable(
    z.object({ name: z.string(), role: z.string(), boothIds: z.nullable(z.array(z.string())) }),
  ),
});

async function twoBooths() {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const juniper = await addBooth(api, "Juniper");
  const sorrel = await addBooth(api, "Sorrel");
  const booked = z.object({ bookingId: z.string() });
  const { bookingId } = await api.post("/api/bookings", aPlan(juniper), booked);
  const pass = await api.post("/api/passes", { name: "Bo", bookingIds: [bookingId] }, madePass);
  return { time, dashboard, api, juniper, sorrel, bookingId, pass };
}

const tokenOf = (path: string) => path.split("#pass=")[1] ?? "";

async function join(url: string, path: string): Promise<DashboardApi> {
  const api = openApi(url);
  await api.post("/api/join", { token: tokenOf(path) }, z.unknown());
  return api;
}

describe("a pass", () => {
  it("lets an attendant in without a password, at the booths of its bookings", async () => {
    const { dashboard, juniper, sorrel, pass } = await twoBooths();
    const bo = await join(dashboard.url, pass.path);
    expect((await bo.get("/api/me", whoAmI)).signedIn).toEqual({
      ...{ name: "Bo", role: "attendant", boothIds: [juniper] },
    });
    const said = { kind: "correction", sheetsLeft: 120 };
    await bo.post(`/api/booths/${juniper}/facts`, said, z.unknown());
    await expect(bo.post(`/api/booths/${sorrel}/facts`, said, z.unknown())).rejects.toThrow("404");
    await expect(bo.get("/api/bookings", z.unknown())).rejects.toThrow("403");
    await expect(bo.get("/api/passes", z.unknown())).rejects.toThrow("403");
  });

  it("shows an attendant's page only the booths of the pass", async () => {
    const { dashboard, api, juniper, sorrel, pass } = await twoBooths();
    const page = await aPage(await join(dashboard.url, pass.path));
    expect(page.booth(juniper).name).toBe("Juniper");
    const link = await aGreetedLink(dashboard.url, await pairAgent(api, sorrel));
    link.batch("boot-1", 0, [sentSession(1, { atMs: sixAtMs })]);
    await link.next("ack");
    const owners = await aPage(api);
    expect(owners.booth(sorrel).name).toBe("Sorrel");
    expect(() => page.booth(sorrel)).toThrow();
  });

  it("ends with the event, some hours after the close", async () => {
    const { time, dashboard, pass } = await twoBooths();
    const bo = await join(dashboard.url, pass.path);
    time.pass(pass.endsAtMs - sixAtMs - 1);
    expect((await bo.get("/api/me", whoAmI)).signedIn?.name).toBe("Bo");
    time.pass(1);
    expect((await bo.get("/api/me", whoAmI)).signedIn).toBeNull();
    await expect(join(dashboard.url, pass.path)).rejects.toThrow("ended with its event");
    expect(pass.endsAtMs - sixAtMs).toBeLessThan(24 * hourMs);
  });

  it("forwarded lets three devices in, each named to the owner, and no fourth", async () => {
    const { dashboard, api, pass } = await twoBooths();
    for (let device = 0; device < 3; device += 1) await join(dashboard.url, pass.path);
    await expect(join(dashboard.url, pass.path)).rejects.toThrow("3 devices came in");
    const listed = z.object({ passes: z.array(z.object({ devices: z.array(z.unknown()) })) });
    expect((await api.get("/api/passes", listed)).passes[0]?.devices).toHaveLength(3);
  });

  it("taken back ends those who came in by it, and lets nobody else in", async () => {
    const { dashboard, api, pass } = await twoBooths();
    const bo = await join(dashboard.url, pass.path);
    const page = await aPage(bo);
    const gone = await request(dashboard.url, `/api/passes/${pass.passId}`, {
      method: "DELETE",
      headers: { cookie: api.cookie(), origin: dashboard.url },
    });
    expect(gone.status).toBe(200);
    expect((await bo.get("/api/me", whoAmI)).signedIn).toBeNull();
    await expect(page.closed()).resolves.toBe(1008);
    await expect(join(dashboard.url, pass.path)).rejects.toThrow("took this link back");
  });

  it("for a booking that is not there, or long over, is not made", async () => {
    const { time, api, bookingId } = await twoBooths();
    const make = (bookingIds: string[]) => api.post("/api/passes", { name: "Bo", bookingIds }, z.unknown());
    await expect(make(["none"])).rejects.toThrow("there is no booking none");
    time.pass(48 * hourMs);
    await expect(make([bookingId])).rejects.toThrow("over");
  });
});
