import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner, owner } from "../../support/aDashboard.ts";
import { aHandClock } from "../../support/aHandClock.ts";
import { aPlan } from "../../support/aPlan.ts";
import { sees } from "../../support/aStub.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { needsTool } from "../../support/needsTool.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const noon = Date.UTC(2026, 5, 16, 10);
const hourMs = 3_600_000;

const csv = (text: string) => ({ name: "file.csv", mimeType: "text/csv", buffer: Buffer.from(text) });

async function signIn(page: Page, url: string) {
  await page.goto(`${url}/sign-in`);
  await page.getByLabel("Name").fill(owner.name);
  await page.getByLabel("Password", { exact: true }).fill(owner.password);
  await page.getByRole("button", { name: "Sign in" }).click();
  await page.getByRole("link", { name: "Run sheet" }).first().waitFor();
}

inChromium("stock and files on a real dashboard, by the pages alone", () => {
  const openPage = chromiumPages();

  it("counts, orders, takes an order in, and brings back what an event left", async () => {
    const clock = aHandClock(noon);
    const dashboard = await aDashboard({ pagesDir: builtPages, clock: clock.clock });
    const api = await anOwner(dashboard);
    const boothId = await addBooth(api);
    const plan = aPlan(boothId, {
      client: "Ivy Hall",
      openAtMs: noon - 9 * hourMs,
      closeAtMs: noon - 4 * hourMs,
    });
    const { bookingId } = await api.post("/api/bookings", plan, z.object({ bookingId: z.string() }));
    const load = {
      onceKey: "load",
      fromPlace: "store",
      toPlace: `event:${bookingId}`,
      rolls: 3,
      why: "loaded",
    };
    await api.post("/api/stock/moves", load, z.unknown());

    const page = await openPage();
    await signIn(page, dashboard.url);
    await page.goto(`${dashboard.url}/stock`);
    await sees(page, "3 rolls more left here than anybody wrote down");
    await page.getByRole("button", { name: "Back: Juniper's case" }).click();
    await sees(page, "3 rolls: At Ivy Hall → Juniper's case");

    await page.getByRole("button", { name: "Count", exact: true }).click();
    await page.getByLabel("Full rolls there now").fill("8");
    await page.getByLabel("Sheets on each part roll").fill("158");
    await page.getByRole("button", { name: "This is what is there" }).click();
    await sees(page, "In the store: counted 8 rolls and a part roll with 158 sheets");

    await page.getByRole("button", { name: "Write down an order" }).click();
    await page.getByLabel("Rolls ordered").fill("12");
    await page.getByRole("button", { name: "It is ordered" }).click();
    await page.getByRole("button", { name: "They came" }).click();
    await page.getByRole("button", { name: "Put them into the store" }).click();
    await sees(page, "20 rolls");

    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page
        .getByText("As a file")
        .click()
        .then(() => page.getByRole("link", { name: "Download all lines (CSV)" }).click()),
    ]);
    const lines = readFileSync(await download.path(), "utf8")
      .trim()
      .split("\r\n");
    expect(lines).toHaveLength(6);
    expect(lines[3]).toContain(",counted,Ama,");
    await page.getByLabel("Lines from a file (CSV)").setInputFiles(csv(lines.join("\n")));
    await sees(page, "There is nothing new in this file.");
  });

  it("takes a run sheet from a file whole, or says what is wrong in it and takes nothing", async () => {
    const dashboard = await aDashboard({ pagesDir: builtPages, clock: aHandClock(noon).clock });
    await addBooth(await anOwner(dashboard));
    const page = await openPage();
    await signIn(page, dashboard.url);
    await page.goto(`${dashboard.url}/run-sheet`);
    await page.getByText("The run sheet as a file").click();
    const head = "\uFEFFbooth;client;kind;opens;closes;guests\r\n";
    const good = "Juniper;Ivy Hall;party;2026-06-20 18:00;2026-06-20 23:00;90\r\n";
    const bad =
      "Juniper;Oak;party;2026-06-20 22:00;2026-06-21 01:00;many\r\nSorrel;Elm;party;2026-06-20 22:00;x;1\r\n";
    await page.getByLabel("Bookings from a file").setInputFiles(csv(head + good + bad));
    await sees(page, "2 lines cannot be taken. Nothing was kept");
    await sees(page, "Line 3, guests: invalid input");
    await sees(page, "Line 4, closes: x is no time");
    await page.getByLabel("Bookings from a file").setInputFiles(csv(head + good));
    await page.getByRole("button", { name: "Keep this one" }).click();
    await sees(page, "One line was kept.");
    await sees(page, "Ivy Hall");
    await sees(page, "18:00 – 23:00");
  });
});
