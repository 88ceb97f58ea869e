import type { OwnFrame } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { anyAnswer } from "../../../seeds/dashboardApi.ts";
import { openOwnWatch } from "../../../dashboard/ownWatch.ts";
import type { NewNotice } from "../../../dashboard/store/notices.ts";
import { addBooth, aDashboard, anOwner, pairAgent } from "../../support/aDashboard.ts";
import { aGreetedLink } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";
import { until } from "../../support/until.ts";

/** A watch over a dashboard whose calls and agents a test speaks for. */
function aWatch() {
  const time = handTime(sixAtMs);
  const calls: { atMs: number; didAnswer: boolean }[] = [];
  let heardAtMs: number[] = [];
  const published: OwnFrame[] = [];
  const queued: NewNotice[] = [];
  const watch = openOwnWatch({
    ...{ clock: time.clock, makeId: () => `notice-${queued.length}` },
    lateCalls: () => calls,
    heardFromElsewhereAtMs: () => heardAtMs,
    publish: (own) => published.push(own),
    queue: (notices) => Promise.resolve(void queued.push(...notices)),
  });
  async function pass(ms: number, didAnswer: boolean): Promise<void> {
    time.pass(ms);
    const { wallMs } = time.clock();
    calls.push({ atMs: wallMs, didAnswer });
    if (didAnswer) heardAtMs = [wallMs, wallMs];
    await watch.tick();
  }
  return { watch, pass, time, published, queued };
}

describe("a dashboard that has lost its own network", () => {
  it("says so at once on the page, and by notice once it is back", async () => {
    const { watch, pass, published, queued } = aWatch();
    await pass(1_000, true);
    await pass(minuteMs, false);
    await pass(minuteMs, false);
    await pass(minuteMs, false);
    expect(watch.now().uplink).toBe("down");
    const [downFromAtMs] = published.map((own) => own.uplinkDownFromAtMs).filter((each) => each !== null);
    expect(downFromAtMs).toBe(sixAtMs + 1_000 + minuteMs);
    expect(queued).toEqual([]);
    await pass(20 * minuteMs, false);
    expect(watch.now().uplink).toBe("down");
    await pass(minuteMs, true);
    expect(published.at(-1)).toEqual({ uplinkDownFromAtMs: null, clockSteppedAtMs: null });
    expect(queued.map(({ text, toRole }) => [toRole, text])).toEqual([
      ["owner", "The dashboard had no network for 23 min; what happened meanwhile is coming in now."],
    ]);
  });
});

const alertRow = z.object({ matter: z.string(), body: z.string() });
const noticeRow = z.object({ why: z.string(), text: z.string() });

describe("a clock that jumps", () => {
  it("is said once, and the silence that it makes up is nobody's", async () => {
    const time = handTime(sixAtMs);
    const dashboard = await aDashboard({ clock: time.clock });
    const api = await anOwner(dashboard);
    const page = await aPage(api);
    const boothId = await addBooth(api);
    await api.post("/api/bookings", aPlan(boothId), anyAnswer);
    const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
    await dashboard.tick();
    time.stepWall(10 * minuteMs);
    await dashboard.tick();
    const own = () => page.frames.findLast((frame) => frame.kind === "own");
    const clockSteppedAtMs = sixAtMs + 10 * minuteMs;
    await until(() => own()?.own.clockSteppedAtMs === clockSteppedAtMs, "the page to be told");
    const silence = readStore(dashboard.dataDir, "select matter, body from alert", alertRow).find(
      ({ matter }) => matter === "agentSilent",
    );
    expect(JSON.parse(silence?.body ?? "{}")).toMatchObject({ suppressedBy: "ownTrouble" });
    // The agent beats on all the while.
    for (let minute = 0; minute < 6; minute++) {
      time.pass(minuteMs);
      link.send({ kind: "beat", t1MonoMs: time.clock().monoMs, sample: null });
      await link.next("beat");
      await dashboard.tick();
    }
    expect(own()?.own.clockSteppedAtMs).toBeNull();
    const notices = readStore(dashboard.dataDir, "select why, text from notice", noticeRow);
    expect(notices).toEqual([
      {
        why: "own",
        text: "The clock of the dashboard's computer jumped. See that it is set by the network.",
      },
    ]);
  });
});
