import type { AnyItem } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { anyAnswer } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { until } from "../../support/until.ts";

/** The printer's word at so many seconds after six. */
const printer = (seq: number, second: number, reasons: string[]): AnyItem => ({
  ...{ class: "fact", kind: "printerState", seq, source: "ipp", monoMs: 0, queue: "dye", message: null },
  ...{ state: reasons.length > 0 ? "stopped" : "idle", reasons, atMs: sixAtMs + second * 1_000 },
});

/** An open booth whose owner has a webhook; time stands at six and moves by hand. */
async function aWatchedBooth() {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const receiver = await aReceiver();
  await api.post("/api/reaches", { way: "webhook", label: "office", body: { url: receiver.url } }, anyAnswer);
  const boothId = await addBooth(api);
  await api.post("/api/bookings", aPlan(boothId), anyAnswer);
  const page = await aPage(api);
  const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
  const passSecond = async () => {
    time.pass(1_000);
    await dashboard.tick();
    await dashboard.settled();
  };
  const jams = () => receiver.calls.filter(({ body }) => body.includes("jam"));
  return { time, link, page, boothId, passSecond, jams };
}

describe("a notice", () => {
  it("has left within two seconds of the moment at which its rule has held, at one tick a second", async () => {
    const { link, page, boothId, passSecond, jams } = await aWatchedBooth();
    link.batch("boot-1", 0, [printer(1, 0, ["media-jam-error"])]);
    await until(() => page.booth(boothId).health === "stopped", "the page to show the stop");
    // A printer's stop is held for five seconds from when it was first judged.
    for (let second = 0; second < 4; second += 1) await passSecond();
    expect(jams()).toHaveLength(0);
    await passSecond();
    await passSecond();
    await passSecond();
    expect(jams()).toHaveLength(1);
  });

  it("leaves without a tick when the word that comes in completes what was held", async () => {
    const { time, link, page, boothId, jams } = await aWatchedBooth();
    link.batch("boot-1", 0, [printer(1, 0, ["media-jam-error"])]);
    await until(() => page.booth(boothId).health === "stopped", "the page to show the stop");
    time.pass(5_000);
    link.batch("boot-1", 1, [printer(2, 5, ["media-jam-error", "media-low-warning"])]);
    await until(() => jams().length === 1, "the notice to leave with no tick at all");
  });
});
