import type { AnyItem, BoothView } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { anyAnswer } from "../../../seeds/dashboardApi.ts";
import { addBooth, aDashboard, anOwner, pairAgent, signIn } from "../../support/aDashboard.ts";
import { aGreetedLink, sentSession, sentWarmth, type ALinkClient } from "../../support/aLinkClient.ts";
import { aPage } from "../../support/aPage.ts";
import { aPlan } from "../../support/aPlan.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { handTime } from "../../support/handTime.ts";
import { readStore } from "../../support/readStore.ts";
import { seeBooths } from "../../support/seeBooths.ts";
import { until } from "../../support/until.ts";
import * as z from "zod";

const at = (minute: number) => ({ atMs: sixAtMs + minute * minuteMs });

async function aBookedBooth() {
  const time = handTime(sixAtMs);
  // The same ids in every dashboard: a booking's id keys the dice of its forecast.
  let made = 0;
  const dashboard = await aDashboard({ clock: time.clock, makeId: () => `id-${made++}` });
  const api = await anOwner(dashboard);
  // Somebody looks: an owner whom nobody could tell is a matter of its own.
  const page = await aPage(api);
  const boothId = await addBooth(api);
  await api.post("/api/bookings", aPlan(boothId), anyAnswer);
  const token = await pairAgent(api, boothId);
  return { time, dashboard, api, boothId, token, page };
}

const printer = (seq: number, minute: number, reasons: string[]): AnyItem => ({
  ...{ class: "fact", kind: "printerState", seq, source: "ipp", monoMs: 0, queue: "dye", message: null },
  ...{ state: reasons.length > 0 ? "stopped" : "idle", reasons },
  ...at(minute),
});
const print = (seq: number, minute: number, pitches: number): AnyItem => ({
  ...{ class: "fact", kind: "print", seq, source: "ipp", monoMs: 0, queue: "dye" },
  ...{ printId: `print-${seq}`, copies: 1, pitches },
  ...at(minute),
});

const alertRow = z.object({
  matter: z.string(),
  sinceAtMs: z.number(),
  raisedAtMs: z.number().nullable(),
  clearedAtMs: z.number().nullable(),
});
const alertsIn = (dataDir: string) => readStore(dataDir, "select * from alert order by raisedAtMs", alertRow);

describe("a jam", () => {
  it("appears on the page, is raised once, stays over a restart, and clears", async () => {
    const { time, dashboard, boothId, token, page } = await aBookedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [printer(1, 0, ["media-jam-error"])]);
    await until(() => page.booth(boothId).health === "stopped", "the page to show the stop");
    expect(alertsIn(dashboard.dataDir)).toMatchObject([{ matter: "printerStopped", raisedAtMs: null }]);
    time.pass(6_000);
    await dashboard.tick();
    await until(() => page.booth(boothId).alerts.length === 1, "the alert to be raised");
    const raised = [{ matter: "printerStopped", sinceAtMs: sixAtMs, raisedAtMs: sixAtMs + 6_000 }];
    expect(alertsIn(dashboard.dataDir)).toMatchObject(raised);
    const { alertId } = page.booth(boothId).alerts[0] ?? {};

    const reopened = await dashboard.reopen();
    const owner = await signIn(reopened);
    await aPage(owner);
    expect(await seeBooths(owner)).toMatchObject([{ alerts: [{ alertId, matter: "printerStopped" }] }]);
    const again = await aGreetedLink(reopened.url, token);
    again.batch("boot-1", 1, [printer(2, 0.1, [])]);
    await again.next("ack");
    await reopened.tick();
    time.pass(6_000);
    await reopened.tick();
    expect(await seeBooths(owner)).toMatchObject([{ alerts: [] }]);
    expect(alertsIn(dashboard.dataDir)).toMatchObject([{ ...raised[0], clearedAtMs: sixAtMs + 12_000 }]);
  });

  it("that is long over when it comes in is history and pages nobody", async () => {
    const { time, dashboard, api, boothId, token } = await aBookedBooth();
    time.pass(60 * minuteMs);
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [printer(1, 5, ["media-jam-error"]), printer(2, 25, []), print(3, 30, 2)]);
    await link.next("ack");
    for (let second = 0; second < 10; second++) {
      time.pass(1_000);
      await dashboard.tick();
    }
    expect(await seeBooths(api)).toMatchObject([{ boothId, counts: { pitches: 2 }, alerts: [] }]);
    expect(alertsIn(dashboard.dataDir)).toEqual([]);
  });
});

describe("silence", () => {
  it("moves without a word from anybody, is said once, and ends with the booth's return", async () => {
    const { time, dashboard, boothId, token, page } = await aBookedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [printer(1, 0, [])]);
    await link.next("ack");
    await until(() => page.booth(boothId).isLinked, "the page to show that it is linked");
    expect(page.booth(boothId).alerts).toEqual([]);
    link.cut();
    await until(() => !page.booth(boothId).isLinked, "the page to show that it is not linked");
    time.pass(6 * minuteMs);
    await dashboard.tick();
    await until(() => page.booth(boothId).health === "silent", "the page to show the silence");
    expect(page.booth(boothId).alerts).toMatchObject([
      { matter: "agentSilent", sinceAtMs: sixAtMs, severity: "actNow" },
    ]);
    await aGreetedLink(dashboard.url, token);
    await until(() => page.booth(boothId).alerts.length === 0, "the page to show the return");
    expect(alertsIn(dashboard.dataDir)).toMatchObject([{ matter: "agentSilent", sinceAtMs: sixAtMs }]);
  });

  it("of a revoked agent is none: the booth has nobody to be heard from", async () => {
    const { time, dashboard, api, token } = await aBookedBooth();
    await aGreetedLink(dashboard.url, token);
    await api.post("/api/agents/agent-1/revoke", {}, anyAnswer);
    time.pass(10 * minuteMs);
    await dashboard.tick();
    expect(await seeBooths(api)).toMatchObject([{ isLinked: false, heardAtMs: null, health: "unknown" }]);
  });
});

/** An evening's items of one boot, whatever order their times are in. */
const evening: fc.Arbitrary<AnyItem[]> = fc
  .array(
    fc.tuple(
      fc.integer({ min: 0, max: 100 }),
      fc.constantFrom("session", "print", "jam", "well", "warm", "roll", "wrong"),
    ),
    { minLength: 4, maxLength: 24 },
  )
  .map((lines) => lines.map(([minute, what], index) => eveningItem(what, index + 1, minute)));

function eveningItem(what: string, seq: number, minute: number): AnyItem {
  switch (what) {
    case "print":
      return print(seq, minute, 2);
    case "jam":
      return printer(seq, minute, ["media-jam-error"]);
    case "well":
      return printer(seq, minute, []);
    case "warm":
      return sentWarmth(seq, 20 + (seq % 9), at(minute));
    case "roll":
      return {
        ...{ class: "fact", kind: "rollFitted", seq, source: "person", monoMs: 0, sheets: 400, by: null },
        ...at(minute),
      };
    case "wrong":
      return { ...print(seq, minute, 2), pitches: -1 };
    default:
      return sentSession(seq, at(minute));
  }
}

/** Sends the items in pieces, each of a boot of its own, so that they may come in any order. */
async function sendInPieces(link: ALinkClient, items: readonly AnyItem[], order: readonly number[]) {
  for (const [place, index] of order.entries()) {
    const item = items[index];
    if (item === undefined) continue;
    link.batch(`boot-of-${index}`, 0, [{ ...item, seq: 1 + (item.seq % 3) }]);
    // Some come one by one, some together.
    if (place % 3 === 0) await link.next("ack");
  }
}

describe("late facts", () => {
  it("give the same view live, in any order of arrival, and rebuilt from the store", async () => {
    const withOrder = evening.chain((items) =>
      fc.tuple(
        fc.constant(items),
        fc.shuffledSubarray([...items.keys()], { minLength: items.length, maxLength: items.length }),
      ),
    );
    await fc.assert(
      fc.asyncProperty(withOrder, async ([items, order]) => {
        const inOrder = await viewAfter(items, [...items.keys()]);
        const shuffled = await viewAfter(items, order);
        expect(shuffled.live).toEqual(inOrder.live);
        expect(shuffled.rebuilt).toEqual(shuffled.live);
        expect(inOrder.rebuilt).toEqual(inOrder.live);
      }),
      { seed: 11, numRuns: 8, endOnFailure: true },
    );
  }, 180_000);
});

/** What a page shows once all is in, and what it shows after a restart at the same moment. */
async function viewAfter(items: readonly AnyItem[], order: readonly number[]) {
  const { time, dashboard, api, boothId, token } = await aBookedBooth();
  time.pass(101 * minuteMs);
  const link = await aGreetedLink(dashboard.url, token);
  await sendInPieces(link, items, order);
  const stored = () => link.frames.filter(({ kind }) => kind === "ack").length;
  await until(() => stored() === items.length, "all to be stored");
  await dashboard.tick();
  // What only drifts, like the forecast, is looked at anew after fifteen seconds.
  time.pass(16_000);
  await dashboard.tick();
  const live = comparable(await seeBooths(api), boothId);
  const reopened = await dashboard.reopen();
  const page = await signIn(reopened);
  await aPage(page);
  await aGreetedLink(reopened.url, token);
  await reopened.tick();
  const rebuilt = comparable(await seeBooths(page), boothId);
  await reopened.close();
  return { live, rebuilt };
}

/** The view without the ids that each dashboard makes for itself, and without when the link was heard last. */
function comparable(booths: readonly BoothView[], boothId: string) {
  const view = booths.find((booth) => booth.boothId === boothId);
  if (view === undefined) throw new Error("the booth is not shown");
  const { booking, alerts, ...rest } = view;
  return {
    ...rest,
    boothId: null,
    heardAtMs: null,
    client: booking?.client,
    matters: alerts.map(({ matter, severity, sinceAtMs }) => [matter, severity, sinceAtMs]),
  };
}
