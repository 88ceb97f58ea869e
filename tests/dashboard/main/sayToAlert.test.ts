import { alertStory, type AnyItem } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { anyAnswer, openApi } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent, signIn } from "../../support/aDashboard.ts";
import { aGreetedLink } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";
import { until } from "../../support/until.ts";

const jam: AnyItem = {
  ...{ class: "fact", kind: "printerState", seq: 1, source: "ipp", monoMs: 0, queue: "dye", message: null },
  ...{ state: "stopped", reasons: ["media-jam-error"], atMs: sixAtMs },
};

const stories = z.object({ alerts: z.array(alertStory) });
const noticeRow = z.object({ onceKey: z.string(), why: z.string(), toRole: z.string(), text: z.string() });

/** A booth whose printer jammed at 18:00, with the alert just raised. */
async function aJam() {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const booked = z.object({ bookingId: z.string() });
  const { bookingId } = await api.post("/api/bookings", aPlan(boothId), booked);
  const page = await aPage(api);
  const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
  link.batch("boot-1", 0, [jam]);
  await until(() => page.booth(boothId).health === "stopped", "the page to show the stop");
  time.pass(6_000);
  await dashboard.tick();
  await until(() => page.booth(boothId).alerts.length === 1, "the alert to be raised");
  const alertId = page.booth(boothId).alerts[0]?.alertId ?? "";
  const pass = z.object({ path: z.string() });
  const { path } = await api.post("/api/passes", { name: "Bo", bookingIds: [bookingId] }, pass);
  const bo = openApi(dashboard.url);
  await bo.post("/api/join", { token: path.split("#pass=")[1] }, anyAnswer);
  /** Time goes by, and the agent is heard each half minute. */
  async function passMinutes(minutes: number): Promise<void> {
    for (let half = 0; half < minutes * 2; half += 1) {
      time.pass(minuteMs / 2);
      link.send({ kind: "beat", t1MonoMs: time.clock().monoMs, sample: null });
      await link.next("beat");
      await dashboard.tick();
    }
  }
  return { time, dashboard, api, bo, boothId, page, link, alertId, passMinutes };
}

const take = (id: number) => ({
  ...{ answer: "take", sayId: `0190c0de-0000-7000-8000-00000000000${id}` },
});
const notices = (dataDir: string, alertId: string) =>
  readStore(dataDir, "select onceKey, why, toRole, text from notice order by createdAtMs", noticeRow).filter(
    ({ onceKey }) => onceKey.startsWith(alertId),
  );

describe("an alert that people answer", () => {
  it("by two phones at once has one history and belongs to the first", async () => {
    const { api, bo, page, boothId, alertId } = await aJam();
    const path = `/api/alerts/${alertId}/say`;
    await Promise.all([api.post(path, take(1), anyAnswer), bo.post(path, take(2), anyAnswer)]);
    await bo.post(path, take(2), anyAnswer);
    const [story] = (await api.get("/api/alerts", stories)).alerts;
    const taken = story?.log.filter(({ step }) => step === "taken") ?? [];
    expect(story?.log.map(({ step }) => step)).toEqual(["raised", "taken"]);
    expect(taken[0]).toMatchObject({ state: "acknowledged", by: story?.alert.taken?.by });
    await until(() => page.booth(boothId).alerts[0]?.state === "acknowledged", "the page to show who has it");
  });

  it("once is told once, and again only while nobody has it", async () => {
    const { dashboard, api, alertId, passMinutes } = await aJam();
    await passMinutes(12);
    const before = notices(dashboard.dataDir, alertId);
    expect(before.map(({ why, toRole }) => `${why} ${toRole}`)).toEqual(["raised owner", "repeat owner"]);
    for (const { text } of before) expect(text).toMatch(/^Juniper.{5,103}$/);
    await api.post(`/api/alerts/${alertId}/say`, take(1), anyAnswer);
    await passMinutes(12);
    expect(notices(dashboard.dataDir, alertId)).toEqual(before);
  });

  it("keeps who has it, and what was told, over a restart between raising and sending", async () => {
    const { time, dashboard, bo, alertId } = await aJam();
    await bo.post(`/api/alerts/${alertId}/say`, take(1), anyAnswer);
    const told = notices(dashboard.dataDir, alertId);
    expect(told).toHaveLength(1);
    const reopened = await dashboard.reopen();
    const api = await signIn(reopened);
    time.pass(minuteMs);
    await reopened.tick();
    const { alerts } = await api.get("/api/alerts", stories);
    const story = alerts.find(({ alert }) => alert.alertId === alertId);
    expect(story?.alert).toMatchObject({ alertId, taken: { by: "Bo" } });
    expect(notices(dashboard.dataDir, alertId)).toEqual(told);
  });

  it("'Done' before it is seen to be over leaves it, and over it is closed with its history", async () => {
    const { api, bo, boothId, page, link, alertId, passMinutes } = await aJam();
    await bo.post(`/api/alerts/${alertId}/say`, { ...take(3), answer: "done" }, anyAnswer);
    await until(() => page.booth(boothId).alerts[0]?.doneAtMs === sixAtMs + 6_000, "the page to show it");
    link.batch("boot-1", 1, [{ ...jam, seq: 2, state: "idle", reasons: [], atMs: sixAtMs + 7_000 }]);
    await link.next("ack");
    await passMinutes(2);
    expect(page.booth(boothId).alerts).toEqual([]);
    await passMinutes(20);
    const [story] = (await api.get("/api/alerts", stories)).alerts;
    expect(story?.log.map(({ step, by }) => `${step} ${by ?? "-"}`)).toEqual([
      ...["raised -", "done Bo", "cleared -"],
    ]);
    expect(story?.closedAtMs).not.toBeNull();
  });

  it("is not another booth's attendant's to answer, and not anybody's that is not there", async () => {
    const { api, bo } = await aJam();
    await expect(bo.post("/api/alerts/none/say", take(1), anyAnswer)).rejects.toThrow("no such alert");
    await expect(api.post("/api/alerts/none/say", { answer: "take" }, anyAnswer)).rejects.toThrow("sayId");
  });
});
