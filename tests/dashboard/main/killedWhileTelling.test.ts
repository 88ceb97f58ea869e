import { copyFileSync, readdirSync } from "node:fs";
import { join } from "node:path";
import type { AnyItem } from "@boothward/shared-types";
import { expect, it } from "vitest";
import * as z from "zod";
import { anyAnswer } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aReceiver } from "../../support/aReceiver.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { until } from "../../support/until.ts";

const jam: AnyItem = {
  ...{ class: "fact", kind: "printerState", seq: 1, source: "ipp", monoMs: 0, queue: "dye", message: null },
  ...{ state: "stopped", reasons: ["media-jam-error"], atMs: sixAtMs },
};

/** What a killed process leaves: its database with its log, without the last word of an orderly close. */
function asKilled(dataDir: string): string {
  const left = scratchFolder();
  for (const name of readdirSync(dataDir).filter((each) => each.startsWith("boothward.db")))
    copyFileSync(join(dataDir, name), join(left, name));
  return left;
}

it("a dashboard killed between raising and sending leaves one history and one notice, and tells it once", async () => {
  const time = handTime(sixAtMs);
  const dashboard = await aDashboard({ clock: time.clock });
  const api = await anOwner(dashboard);
  const receiver = await aReceiver("nothing");
  await api.post("/api/reaches", { way: "webhook", label: "office", body: { url: receiver.url } }, anyAnswer);
  const boothId = await addBooth(api);
  await api.post("/api/bookings", aPlan(boothId), anyAnswer);
  const page = await aPage(api);
  const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
  link.batch("boot-1", 0, [jam]);
  await until(() => page.booth(boothId).health === "stopped", "the page to show the stop");
  time.pass(6_000);
  await dashboard.tick();
  await until(() => receiver.calls.length === 1, "the call that is not answered");

  const dataDir = asKilled(dashboard.dataDir);
  receiver.answer(201);
  const again = await aDashboard({ clock: time.clock, dataDir });
  for (let second = 0; second < 5; second += 1) {
    time.pass(1_000);
    await again.tick();
    await again.settled();
  }
  const steps = readStore(dataDir, `select "step" from "alertStep"`, z.object({ step: z.string() }));
  expect(steps).toEqual([{ step: "raised" }]);
  const notices = readStore(dataDir, "select why, ended from notice", z.record(z.string(), z.unknown()));
  expect(notices).toEqual([{ why: "raised", ended: "told" }]);
  // The call that was under way when it was killed, and the one that was answered: one delivery by its id.
  const ids = receiver.calls.map(({ headers }) => headers["webhook-id"]);
  expect(ids).toHaveLength(2);
  expect(new Set(ids).size).toBe(1);
});
