import { pushMessage, type AnyItem } from "@boothward/shared-types";
import type { Page } from "playwright-core";
import QRCode from "qrcode";
import { expect, it, vi } from "vitest";
import * as z from "zod";
import { qrPath } from "../../../dashboard/web/setUp/qrPath.ts";
import { anyAnswer, type DashboardApi } from "../../../seeds/dashboardApi.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import {
  addBooth,
  aDashboard,
  anOwner,
  nearby,
  owner,
  pairAgent,
  type ADashboard,
} from "../../support/aDashboard.ts";
import { aGreetedLink, type ALinkClient } from "../../support/aLinkClient.ts";
import { aPlan } from "../../support/aPlan.ts";
import { aCertificate, aReceiver } from "../../support/aReceiver.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { sees } from "../../support/aStub.ts";
import { findTool } from "../../support/findTool.ts";
import { handTime, type HandTime } from "../../support/handTime.ts";
import { needsTool } from "../../support/needsTool.ts";
import { aBrowser } from "../../support/pushDecryption.ts";
import { pushToWorker } from "../../support/pushToWorker.ts";
import { readStore } from "../../support/readStore.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 180_000 });

const inChromium = needsTool(
  ["chromium", "chromium-browser"],
  "apt-get install chromium openssl",
  () => findTool("openssl") !== null,
);

type Line = { time: HandTime; dashboard: ADashboard; api: DashboardApi; link: ALinkClient; boothId: string };

/** A real dashboard, half an hour into an event with two booths, one of them linked. */
async function aLine(over: Parameters<typeof aDashboard>[0] = {}): Promise<Line> {
  const time = handTime(sixAtMs + 30 * minuteMs);
  const dashboard = await aDashboard({ clock: time.clock, pagesDir: builtPages, ...over });
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api, "Juniper");
  const other = await addBooth(api, "Sorrel");
  await api.post("/api/bookings", aPlan(boothId, { client: "Fern and Rowan" }), anyAnswer);
  await api.post("/api/bookings", aPlan(other, { client: "Harbour Choir" }), anyAnswer);
  const link = await aGreetedLink(dashboard.url, await pairAgent(api, boothId));
  const { wallMs: atMs, monoMs } = time.clock();
  const meter: AnyItem = {
    ...{ class: "fact", kind: "media", seq: 1, source: "ipp", queue: "dye", part: "kit", atMs, monoMs },
    ...{ sheetsLeft: 380, leftPct: null, ageMs: 0 },
  };
  link.batch("boot-1", 0, [meter]);
  await link.next("ack");
  return { time, dashboard, api, link, boothId };
}

/** The printer says why it stands, or that it prints; the rule's hold passes. */
async function printerSays({ time, dashboard, link }: Line, seq: number, reasons: string[]): Promise<void> {
  const { wallMs: atMs, monoMs } = time.clock();
  const said: AnyItem = {
    ...{ class: "fact", kind: "printerState", seq, source: "ipp", queue: "dye", message: null, atMs, monoMs },
    ...{ state: reasons.length > 0 ? "stopped" : "idle", reasons },
  };
  link.batch("boot-1", seq - 1, [said]);
  await link.next("ack");
  for (let second = 0; second < 6; second += 1) {
    time.pass(1_000);
    await dashboard.tick();
  }
}

async function signInAt(page: Page, { url }: ADashboard): Promise<void> {
  await page.goto(`${url}/sign-in`);
  await page.getByLabel("Name").fill(owner.name);
  await page.getByLabel("Password", { exact: true }).fill(owner.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.locator("article.booth").first().waitFor();
}

/** Makes the link for Juniper's attendant in Set-up; gives it as the code beside it shows it. */
async function makeLink(page: Page, { url }: ADashboard): Promise<string> {
  await page.goto(`${url}/set-up`);
  await page.getByLabel("Name of the attendant").fill("Bo");
  await page.getByLabel(/Juniper, Fern and Rowan/).check();
  await page.getByRole("button", { name: "Make the link" }).click();
  const code = page.locator("svg.qr path.dark");
  await code.waitFor();
  const link = await page.locator("code", { hasText: "/join#pass=" }).innerText();
  const { modules } = QRCode.create(link, { errorCorrectionLevel: "M" });
  expect(await code.getAttribute("d")).toBe(qrPath(modules));
  return link;
}

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });

inChromium("alerts and people, with a real dashboard", () => {
  const openPage = chromiumPages();

  it("an attendant comes in by the code, sees the own booth only, and answers once, whatever gets lost", async () => {
    const line = await aLine();
    const { dashboard } = line;
    const office = await openPage();
    await signInAt(office, dashboard);
    const link = await makeLink(office, dashboard);

    const phone = await openPage();
    await phone.clock.install();
    await phone.goto(link);
    await phone.getByRole("heading", { name: "You are Bo at Juniper." }).waitFor();
    await phone.getByRole("link", { name: "Show my booth" }).click();
    const statusOf = (address: string) =>
      phone.evaluate(async (asked) => (await fetch(asked)).status, address);
    expect(await statusOf("/api/settings/notices")).toBe(403);
    expect(await statusOf("/api/passes")).toBe(403);
    const seen = await phone.evaluate(async () => (await fetch("/api/alerts")).text());
    expect(seen).not.toContain("Sorrel");

    await printerSays(line, 2, ["media-jam-error"]);
    await button(phone, "I’m on it").click();
    await sees(phone, /^Yours since /);
    await office.goto(`${dashboard.url}/alerts`);
    await sees(office, /^Bo is on it since /);

    // The dashboard takes the press, and its answer is lost on the way.
    await phone.route(
      /\/say$/,
      async (route) => {
        await route.fetch();
        await route.abort();
      },
      { times: 1 },
    );
    await button(phone, "Done").click();
    await sees(phone, "Kept, sends when the booth is reached.");
    // The line stays open meanwhile: it is the page's clock that sends again.
    await phone.clock.fastForward(15_000);
    const hasSent = () => phone.evaluate(() => localStorage.getItem("answers") === null);
    await until(hasSent, "the press to be sent again");
    const steps = readStore(
      dashboard.dataDir,
      "select step from alertStep order by atMs",
      z.object({ step: z.string() }),
    );
    expect(steps.map(({ step }) => step)).toEqual(["raised", "taken", "done"]);

    await printerSays(line, 3, []);
    await sees(phone, "Thank you. It is seen.");
    await sees(phone, "Nothing to do.");
  });

  it("a test and a real alert come to a phone, the second one with the page closed", async () => {
    const certificate = aCertificate();
    const service = await aReceiver(201, certificate);
    const line = await aLine({ outside: { ...nearby, trustedCa: certificate.cert } });
    const { dashboard, api } = line;
    const browser = aBrowser();
    const page = await openPage({ serviceWorkers: "allow" });
    const context = page.context();
    await context.grantPermissions(["notifications"], { origin: dashboard.url });
    // The browser's own push service is elsewhere: what it would be sent goes to this test.
    await context.addInitScript(
      (made) => {
        const subscription = { toJSON: () => made } as unknown as PushSubscription;
        PushManager.prototype.subscribe = () => {
          PushManager.prototype.getSubscription = () => Promise.resolve(subscription);
          return Promise.resolve(subscription);
        };
      },
      { endpoint: `${service.url}/push/one`, keys: browser.keys },
    );
    await signInAt(page, dashboard);
    await page.goto(`${dashboard.url}/set-up`);
    await page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");
    await button(page, "Allow notices").click();
    await sees(page, "This device can be reached with the page closed.");

    /** Takes the next push to the worker, as its service would; gives what it said. */
    const deliver = async (nth: number) => {
      await until(() => service.calls.length >= nth, `push ${nth}`);
      const text = browser.read(service.calls[nth - 1]?.body ?? Buffer.alloc(0));
      await pushToWorker(context, dashboard.url, text);
      return pushMessage.parse(JSON.parse(text));
    };
    await button(page, "Send me a test").click();
    const test = await deliver(1);
    expect(test.body).toContain("A test alert");
    await sees(page, /: came after \d+ s\.$/);

    await page.close();
    await printerSays(line, 2, ["media-jam-error"]);
    const notice = await deliver(2);
    expect(notice.body).toMatch(/^Juniper's printer is jammed/);
    const told = z.object({
      alerts: z.array(z.object({ told: z.array(z.object({ arrivedAtMs: z.number().nullable() })) })),
    });
    const hasArrived = async () =>
      (await api.get("/api/alerts", told)).alerts[0]?.told[0]?.arrivedAtMs != null;
    await until(hasArrived, "the arrival to be told");
    const next = await context.newPage();
    await next.goto(dashboard.url);
    const shown = await next.evaluate(async () =>
      (await (await navigator.serviceWorker.ready).getNotifications()).map(({ body }) => body),
    );
    expect(shown).toContain(notice.body);
  });
});
