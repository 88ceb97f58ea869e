import type { Page } from "playwright-core";
import { vi } from "vitest";
import { allWell, manyAlerts, nothingConnected, watched } from "../../shots/scenes.ts";
import { settingUp } from "../../shots/planScenes.ts";
import { stockLow } from "../../shots/stockScenes.ts";
import { inTheSun } from "../../shots/sunScenes.ts";
import { lookAtPages } from "../../support/lookAtPages.ts";
import { needsTool } from "../../support/needsTool.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const signedOut = () => ({ ...allWell(), signedIn: null });
const presses = (name: string) => (page: Page) => page.getByRole("button", { name }).first().click();

async function openReplay(page: Page): Promise<void> {
  await page.getByText("Past (1)").click();
  await page.getByRole("button", { name: "How the forecast did" }).click();
  await page.getByText("The same as a table").click();
}

const changes = (element: "article" | "section") => async (page: Page) => {
  const sorrel = page.locator(element, { has: page.getByRole("heading", { name: /Sorrel/ }) }).first();
  await sorrel.getByRole("button", { name: "Change" }).click();
};

async function openPlan(page: Page): Promise<void> {
  const juniper = page.locator("article", { has: page.getByRole("heading", { name: /Juniper/ }) }).first();
  await juniper.getByRole("button", { name: "Plan" }).click();
  await juniper.locator(".power").waitFor();
  await juniper.getByRole("button", { name: "Change" }).click();
  await page.getByText("People and print (if you like)").click();
  await page.getByText("Power (if you like)").click();
}

async function changeStanding(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Sun on the printer, from above" }).click();
  await changes("article")(page);
  await page.getByText("Heading from a shadow").click();
}

inChromium("every page", () => {
  lookAtPages([
    { name: "Today, all well", makeState: allWell, address: "/", seen: "All four" },
    { name: "Today, on fire", makeState: manyAlerts, address: "/", seen: "booths need somebody now" },
    { name: "Today, with questions", makeState: watched, address: "/", seen: "Keep an eye on" },
    {
      name: "Today, nothing connected",
      makeState: nothingConnected,
      address: "/",
      seen: "Pair the first booth",
    },
    {
      ...{ name: "Run sheet", makeState: allWell, address: "/run-sheet", seen: "on the run sheet" },
      prepare: presses("Add a booking"),
    },
    {
      ...{ name: "Run sheet, a replay", makeState: allWell, address: "/run-sheet", seen: "on the run sheet" },
      prepare: openReplay,
    },
    {
      ...{ name: "Set-up", makeState: allWell, address: "/set-up", seen: "This device" },
      prepare: presses("Pair another computer"),
    },
    {
      ...{ name: "Set-up, a trailer's walls", makeState: inTheSun, address: "/set-up", seen: "This device" },
      prepare: changes("section"),
    },
    {
      ...{ name: "Run sheet, the sun", makeState: inTheSun, address: "/run-sheet", seen: "on the run sheet" },
      prepare: changeStanding,
    },
    {
      ...{ name: "Opening checks", makeState: settingUp, address: "/booths/juniper/checks" },
      seen: "before doors at",
    },
    {
      ...{ name: "Run sheet, plan and form", makeState: settingUp, address: "/run-sheet" },
      ...{ seen: "on the run sheet", prepare: openPlan },
    },
    {
      ...{ name: "What goes into the van", makeState: settingUp, seen: "still to load" },
      address: "/run-sheet/booking-juniper/load-out",
    },
    {
      ...{ name: "Door sign", makeState: settingUp, seen: "At most six people" },
      address: "/run-sheet/booking-juniper/door-sign",
    },
    {
      ...{ name: "Stock", makeState: stockLow, address: "/stock", seen: "Order 12 rolls by" },
      prepare: presses("Move rolls"),
    },
    {
      name: "Stock, empty",
      makeState: nothingConnected,
      address: "/stock",
      seen: "No rolls are written down",
    },
    { name: "Sign in", makeState: signedOut, address: "/sign-in", seen: "Password" },
    {
      name: "First run",
      makeState: () => ({ ...signedOut(), isFirstRun: true }),
      address: "/first-run#code=K7QM",
      seen: "Password",
    },
  ]);
});
