import type { AnyItem } from "@boothward/shared-types";
import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import { openApi } from "../../../seeds/dashboardApi.ts";
import { aDashboard, type ADashboard } from "../../support/aDashboard.ts";
import { sees } from "../../support/aStub.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { aGreetedLink, type ALinkClient } from "../../support/aLinkClient.ts";
import { handTime, type HandTime } from "../../support/handTime.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";
import * as z from "zod";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

/** 18:30 in Berlin on an invented Saturday. */
const halfPastSixMs = Date.UTC(2026, 5, 20, 16, 30);

/** Moves time on with the dashboard looking each second, as it does by itself. */
async function passSeconds(time: HandTime, dashboard: ADashboard, seconds: number) {
  for (let i = 0; i < seconds; i += 1) {
    time.pass(1_000);
    await dashboard.tick();
  }
}

const stamp = (seq: number, time: HandTime) => ({
  seq,
  source: "ipp",
  atMs: time.clock().wallMs,
  monoMs: time.clock().monoMs,
});
const printer = (seq: number, time: HandTime, reasons: string[]): AnyItem => ({
  ...{ class: "fact", kind: "printerState", queue: "dye", message: null },
  ...stamp(seq, time),
  ...{ state: reasons.length > 0 ? "stopped" : "idle", reasons },
});
const meter = (seq: number, time: HandTime, sheetsLeft: number): AnyItem => ({
  ...{ class: "fact", kind: "media", queue: "dye", part: "kit", leftPct: null, ageMs: 0 },
  ...stamp(seq, time),
  sheetsLeft,
});

async function makeOwner(page: Page, dashboard: ADashboard) {
  if (dashboard.firstRunUrl === null) throw new Error("a new dashboard has no owner");
  await page.goto(dashboard.firstRunUrl);
  await page.getByLabel("Name").fill("Ama");
  await page.getByLabel("Password", { exact: true }).fill("a long evening of prints");
  await page.getByRole("button", { name: "Make it mine" }).click();
  await sees(page, "No booth is connected yet.");
}

/** Adds the first booth and pairs an agent with the code that the page shows. */
async function pairFirstBooth(page: Page, dashboard: ADashboard): Promise<ALinkClient> {
  await page.getByLabel("Name of the booth").fill("Juniper");
  await page.getByRole("button", { name: "Add the booth" }).click();
  const code = await page.locator(".code").innerText();
  expect(code).toMatch(/^[A-Z0-9]{3} [A-Z0-9]{3}$/);
  const asked = { code, agentId: "agent-1", hostName: "juniper-tablet" };
  const { token } = await openApi(dashboard.url).post("/api/pair", asked, z.object({ token: z.string() }));
  return await aGreetedLink(dashboard.url, token);
}

async function bookTheEvening(page: Page) {
  await page.getByRole("link", { name: "Run sheet" }).click();
  await page.getByRole("button", { name: "Add a booking" }).click();
  await page.getByLabel("Client").fill("Fern and Rowan");
  await page.getByLabel("Place", { exact: true }).fill("Quarry Barn");
  await page.getByLabel("Kind of event").fill("wedding");
  await page.getByLabel("Opens").fill("18:00");
  await page.getByLabel("Closes").fill("00:30");
  await page.getByRole("button", { name: "Save" }).click();
  await sees(page, "18:00 – 00:30 next day");
  await page.getByRole("link", { name: "Today" }).click();
}

inChromium("the whole line in Chromium, on a phone", () => {
  const openPage = chromiumPages();

  it("goes from the first link over pairing and a booking to a jam that appears and clears", async () => {
    const time = handTime(halfPastSixMs);
    const dashboard = await aDashboard({ clock: time.clock, pagesDir: builtPages });
    const page = await openPage();
    await makeOwner(page, dashboard);
    expect(new URL(page.url()).hash).toBe("");
    const link = await pairFirstBooth(page, dashboard);
    link.batch("boot-1", 0, [printer(1, time, []), meter(2, time, 380)]);
    await link.next("ack");
    await passSeconds(time, dashboard, 1);
    const card = page.locator("article.booth");
    await card.waitFor();
    await bookTheEvening(page);
    await sees(page, "Quarry Barn");
    await until(async () => (await card.locator(".chip").innerText()) === "Fine", "the booth to be fine");
    expect(await card.locator(".left").innerText()).toMatch(/380\s+left/);

    link.batch("boot-1", 2, [printer(3, time, ["media-jam-error"])]);
    await link.next("ack");
    await passSeconds(time, dashboard, 6);
    await sees(page, /^Juniper's printer is jammed: /);
    expect(await card.locator(".chip").innerText()).toBe("Stopped");

    link.batch("boot-1", 3, [printer(4, time, [])]);
    await link.next("ack");
    await passSeconds(time, dashboard, 6);
    await until(async () => (await card.locator(".chip").innerText()) === "Fine", "the jam to clear");
    expect(await page.locator("h1").innerText()).not.toContain("jammed");

    await page.getByText("More", { exact: true }).click();
    await page.getByRole("link", { name: "Set-up" }).click();
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByRole("heading", { name: "Sign in" }).waitFor();
    expect(await page.locator("article.booth").count()).toBe(0);
  });

  it("shows a wrong password and a used link at their place", async () => {
    const dashboard = await aDashboard({ pagesDir: builtPages });
    const page = await openPage();
    await makeOwner(page, dashboard);
    await page.getByText("More", { exact: true }).click();
    await page.getByRole("link", { name: "Set-up" }).click();
    await page.getByRole("button", { name: "Make a sign-in link" }).click();
    const address = await page.locator("code", { hasText: "#once=" }).innerText();

    const phone = await openPage();
    await phone.goto(address);
    await sees(phone, "No booth is connected yet.");
    const stranger = await openPage();
    await stranger.goto(address);
    await sees(stranger, "This link was used already; it works once. Ask for a new one.");
    await stranger.getByLabel("Name").fill("Ama");
    await stranger.getByLabel("Password", { exact: true }).fill("not the password");
    await stranger.getByRole("button", { name: "Sign in" }).click();
    await sees(stranger, "Name and password do not belong together.");
    expect(await stranger.getByLabel("Password", { exact: true }).getAttribute("aria-invalid")).toBe("true");
  });
});
