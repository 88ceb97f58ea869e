import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner, pairAgent, signIn } from "../../support/aDashboard.ts";
import { aGreetedLink, sentSession } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { until } from "../../support/until.ts";

async function aPairedBooth() {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const token = await pairAgent(api, boothId);
  return { time, dashboard, api, boothId, token };
}

describe("an open page", () => {
  it("gets all booths at once, in the order in which their events open", async () => {
    const { api, boothId } = await aPairedBooth();
    const sorrel = await addBooth(api, "Sorrel");
    const thistle = await addBooth(api, "Thistle");
    await api.post("/api/bookings", aPlan(thistle, { openAtMs: sixAtMs - hourMs }), z.unknown());
    await api.post("/api/bookings", aPlan(sorrel), z.unknown());
    const page = await aPage(api);
    expect(page.frames[0]).toMatchObject({
      ...{ kind: "all", nowMs: sixAtMs },
      booths: [{ boothId: thistle }, { boothId: sorrel }, { boothId }],
    });
  });

  it("sees what a booth sends, as one view where it comes together", async () => {
    const { dashboard, api, boothId, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    await dashboard.tick();
    const page = await aPage(api);
    for (let seq = 1; seq <= 40; seq++) link.batch("boot-1", seq - 1, [sentSession(seq)]);
    await until(() => page.booth(boothId).counts.sessions === 40, "the page to show the sessions");
    expect(page.frames.filter(({ kind }) => kind === "booth").length).toBeLessThan(40);
  });

  it("sees a new booth without being loaded anew", async () => {
    const { api } = await aPairedBooth();
    const page = await aPage(api);
    const sorrel = await addBooth(api, "Sorrel");
    await until(() => page.booth(sorrel).name === "Sorrel", "the page to show the booth");
  });

  it("is told nothing new while nothing happens, but that the dashboard is there", async () => {
    const { api, dashboard, time } = await aPairedBooth();
    const page = await aPage(api);
    const framesOf = (kind: string) => page.frames.filter((frame) => frame.kind === kind).length;
    for (const beats of [1, 2, 3]) {
      time.pass(10_000);
      await dashboard.tick();
      await until(() => framesOf("beat") === beats, `beat ${beats}`);
    }
    expect(framesOf("booth")).toBe(0);
  });

  it("is ended when its person signs out, and another device's is not", async () => {
    const { api, boothId, dashboard } = await aPairedBooth();
    const tablet = await aPage(await signIn(dashboard));
    const phone = await aPage(api);
    await api.post("/api/sign-out", {}, z.unknown());
    expect(await phone.closed()).toBe(1008);
    expect(tablet.booth(boothId).name).toBe("Juniper");
  });

  it("is ended when its sign-in expires", async () => {
    const { api, dashboard, time } = await aPairedBooth();
    const page = await aPage(api);
    time.pass(30 * 24 * hourMs);
    await dashboard.tick();
    expect(await page.closed()).toBe(1008);
  });
});
