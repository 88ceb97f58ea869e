import type { Page } from "playwright-core";
import { vi } from "vitest";
import { allWell, nothingConnected, oneWrong, watched } from "../../shots/scenes.ts";
import { attending, storied } from "../../shots/peopleScenes.ts";
import { lookAtPages } from "../../support/lookAtPages.ts";
import { needsTool } from "../../support/needsTool.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const signedOut = () => ({ ...allWell(), signedIn: null });

async function openStories(page: Page): Promise<void> {
  await page.getByText("Who said what, who was told").first().click();
  await page.getByText("Silenced (1)").click();
}

async function openPaper(page: Page): Promise<void> {
  await page.getByRole("button", { name: "New roll, or correct the count" }).click();
  await page.getByText("Changed the paper?").waitFor();
  await page.getByText("How will I reach you").waitFor();
}

async function openForms(page: Page): Promise<void> {
  await page.getByLabel("Name of the attendant").fill("Ben Tansy");
  await page.getByLabel(/Juniper/).check();
  await page.getByRole("button", { name: "Make the link" }).click();
  await page.getByText("Let the phone’s camera look at this:").waitFor();
  await page.getByRole("button", { name: "Add a way" }).click();
  await page.getByLabel("Web call").check();
  await page.getByLabel("Keep quiet hours").check();
  await page.getByLabel("Send e-mails").check();
  await page.getByLabel("Call an address").check();
}

inChromium("pages about alerts and people", () => {
  lookAtPages([
    { name: "Alerts, none", makeState: allWell, address: "/alerts", seen: "Nothing is open." },
    {
      ...{ name: "Alerts, with stories", makeState: storied, address: "/alerts", seen: "need somebody now" },
      prepare: openStories,
    },
    {
      name: "Alerts, nothing connected",
      makeState: nothingConnected,
      address: "/alerts",
      seen: "Nothing is open.",
    },
    {
      ...{ name: "an attendant's own, two booths", makeState: attending, address: "/" },
      ...{ seen: "I’m on it", prepare: openPaper },
    },
    {
      name: "an attendant's, now",
      makeState: oneWrong,
      address: "/booths/thistle/attend",
      seen: "I’m on it",
    },
    {
      name: "an attendant's, calm",
      makeState: allWell,
      address: "/booths/juniper/attend",
      seen: "Nothing to do.",
    },
    {
      name: "an attendant's, a question",
      makeState: watched,
      address: "/booths/marigold/attend",
      seen: "Yes, 300 sheets",
    },
    {
      name: "an attendant's, silent",
      makeState: storied,
      address: "/booths/marigold/attend",
      seen: "has not been heard",
    },
    {
      ...{ name: "Set-up, people", makeState: storied, address: "/set-up", seen: "Let an attendant in" },
      prepare: openForms,
    },
    { name: "Join", makeState: signedOut, address: "/join#pass=4f7Kq2", seen: "You are Ben Tansy at" },
    {
      name: "the test came",
      makeState: signedOut,
      address: "/heard#delivery=d&secret=s",
      seen: "The dashboard knows",
    },
  ]);
});
