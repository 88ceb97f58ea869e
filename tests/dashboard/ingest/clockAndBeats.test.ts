import type { BoothView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { anyAnswer, type DashboardApi } from "../../../seeds/dashboardApi.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { addBooth, aDashboard, anOwner, pairAgent, signIn } from "../../support/aDashboard.ts";
import { aGreetedLink, aLinkClient, sentSession, type ALinkClient } from "../../support/aLinkClient.ts";
import { handTime } from "../../support/handTime.ts";
import { storedItems } from "../../support/readStore.ts";
import { seeBooths } from "../../support/seeBooths.ts";
import { until } from "../../support/until.ts";

const hourMs = 3_600_000;
const trueMs = Date.UTC(2026, 5, 20, 18);

async function aPairedBooth() {
  const time = handTime(trueMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const token = await pairAgent(api, boothId);
  return { time, dashboard, api, boothId, token };
}

/** One exchange: the agent's steady clock began when the dashboard's clock showed `trueMs`. */
async function beatOnce(link: ALinkClient, wallOffMs: number): Promise<void> {
  const { t1MonoMs, t2Ms, t3Ms } = await exchange(link);
  const t4MonoMs = t3Ms - trueMs;
  const sample = { t1MonoMs, t2Ms, t3Ms, t4MonoMs, t4WallMs: trueMs + t4MonoMs + wallOffMs };
  link.send({ kind: "beat", t1MonoMs: t4MonoMs, sample });
  await link.next("beat");
}

async function onlyBooth(api: DashboardApi): Promise<BoothView> {
  const [booth] = await seeBooths(api);
  if (booth === undefined) throw new Error("no booth is shown");
  return booth;
}

async function exchange(link: ALinkClient) {
  link.send({ kind: "beat", t1MonoMs: 0, sample: null });
  return link.next("beat");
}

describe("clocks over the link", () => {
  it("[T1] answers a beat at once with the agent's own timestamp and two of its own", async () => {
    const { dashboard, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    time.pass(5_000);
    link.send({ kind: "beat", t1MonoMs: 4_321, sample: null });
    expect(await link.next("beat")).toEqual({
      ...{ kind: "beat", t1MonoMs: 4_321, t2Ms: trueMs + 5_000, t3Ms: trueMs + 5_000 },
    });
  });

  it("[T2] places items by the steady clock and says on the page that the wall clock is two hours off", async () => {
    const { dashboard, api, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    await beatOnce(link, -2 * hourMs);
    time.pass(60_000);
    link.batch("boot-1", 0, [sentSession(1, { atMs: trueMs - 2 * hourMs + 30_000, monoMs: 30_000 })]);
    await link.next("ack");
    expect(storedItems(dashboard.dataDir)).toMatchObject([{ seq: 1, atMs: trueMs + 30_000 }]);
    await until(async () => (await onlyBooth(api)).clockOffMs === 2 * hourMs, "the page to say so");
  });

  it("[T2] keeps a boot's offset over a restart, for what it sends later", async () => {
    const { dashboard, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    await beatOnce(link, -2 * hourMs);
    time.pass(60_000);
    const reopened = await dashboard.reopen();
    const later = await aGreetedLink(reopened.url, token, { bootId: "boot-2" });
    later.batch("boot-1", 0, [sentSession(1, { atMs: 0, monoMs: 10_000 })]);
    await later.next("ack");
    expect(storedItems(dashboard.dataDir)).toMatchObject([{ seq: 1, atMs: trueMs + 10_000 }]);
  });

  it("[T4] places a boot that was never linked by its wall clock, corrected by how wrong that is now", async () => {
    const { dashboard, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    await beatOnce(link, -2 * hourMs);
    time.pass(60_000);
    link.batch("boot-0", 0, [sentSession(1, { atMs: trueMs - 3 * hourMs, monoMs: 99_999_999 })]);
    await link.next("ack");
    expect(storedItems(dashboard.dataDir)).toMatchObject([{ seq: 1, atMs: trueMs - hourMs }]);
  });

  it("[T5] places an item from the future at its arrival and says on the page that the clock is doubtful", async () => {
    const { dashboard, api, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    time.pass(60_000);
    link.batch("boot-1", 0, [sentSession(1, { atMs: trueMs + 9 * hourMs })]);
    await link.next("ack");
    expect(storedItems(dashboard.dataDir)).toMatchObject([{ seq: 1, atMs: trueMs + 60_000 }]);
    await until(
      async () => (await onlyBooth(api)).faults.some(({ source }) => source === "clock"),
      "the page to say that the clock is doubtful",
    );
    expect(dashboard.lines.filter((line) => line.includes("doubtful"))).toHaveLength(1);
  });
});

describe("being there", () => {
  it("[B1] hangs up with 4408 after three missed beats, and not before", async () => {
    const { dashboard, token, time } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    time.pass(29_000);
    await dashboard.tick();
    await exchange(link);
    time.pass(30_000);
    await dashboard.tick();
    await exchange(link);
    time.pass(30_001);
    await dashboard.tick();
    expect(await link.closed()).toBe(4408);
  });

  it("hangs up on an agent that opens a link and never greets", async () => {
    const { dashboard, token, time } = await aPairedBooth();
    const link = await aLinkClient(dashboard.url, token);
    time.pass(31_000);
    await dashboard.tick();
    expect(await link.closed()).toBe(4408);
  });

  it("remembers over a restart when a booth was last heard, and does not call it silent at once", async () => {
    const { dashboard, api, boothId, token, time } = await aPairedBooth();
    // Somebody looks: an owner whom nobody could tell is a matter of its own.
    await aPage(api);
    await api.post("/api/bookings", aPlan(boothId), anyAnswer);
    const link = await aGreetedLink(dashboard.url, token);
    await exchange(link);
    time.pass(50_000);
    await dashboard.close();
    time.pass(20_000);
    const reopened = await dashboard.reopen();
    const page = await signIn(reopened);
    expect(await onlyBooth(page)).toMatchObject({ heardAtMs: trueMs, health: "unknown", alerts: [] });
    time.pass(61_000);
    await reopened.tick();
    expect(await onlyBooth(page)).toMatchObject({ health: "silent" });
  });
});
