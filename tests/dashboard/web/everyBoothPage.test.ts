import type { Page } from "playwright-core";
import { vi } from "vitest";
import { manyAlerts, onFire, paperAlerts, watched } from "../../shots/scenes.ts";
import { inTheSun, justSwitchedOn } from "../../shots/sunScenes.ts";
import { lookAtPages } from "../../support/lookAtPages.ts";
import { needsTool } from "../../support/needsTool.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

async function openAll(page: Page): Promise<void> {
  await page.getByRole("switch").check();
  await page.getByRole("slider").fill("60");
  await page.getByRole("button", { name: "Make it so" }).click();
  await page.getByRole("button", { name: "Another roll" }).click();
  await page.getByRole("button", { name: "Take back" }).first().click();
  await page.getByText("The same as a table").first().click();
  await page.getByText("What counts sessions and sheets").click();
}

async function openPlan(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Sun on the printer, from above" }).click();
  await page.locator(".sunplan").waitFor();
}

inChromium("the page of a booth", () => {
  lookAtPages([
    { name: "with a stop", makeState: onFire, address: "/booths/thistle", seen: "Facts" },
    { name: "silent", makeState: onFire, address: "/booths/marigold", seen: "Facts" },
    { name: "with several alerts", makeState: manyAlerts, address: "/booths/juniper", seen: "Facts" },
    { name: "with alerts on its paper", makeState: paperAlerts, address: "/booths/sorrel", seen: "Facts" },
    { name: "with a question", makeState: watched, address: "/booths/marigold", seen: "Facts" },
    {
      ...{ name: "with all of it opened", makeState: watched, address: "/booths/juniper", seen: "Facts" },
      prepare: openAll,
    },
    {
      ...{ name: "in the sun, from above", makeState: inTheSun, address: "/booths/sorrel", seen: "Facts" },
      prepare: openPlan,
    },
    {
      ...{ name: "not measured", makeState: justSwitchedOn, address: "/booths/sorrel", seen: "Facts" },
      prepare: openPlan,
    },
  ]);
});
