import { expect, it, vi } from "vitest";
import { allWell, onFire } from "../../shots/scenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { inkedCanvases } from "../../support/inkedCanvases.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

inChromium("the page of one booth in Chromium", () => {
  const openPage = chromiumPages();

  it("shows what to do, the evening, two charts with their tables, and the facts", async () => {
    const stub = await aStub(onFire());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/sorrel`);
    await sees(page, "Put the awning out and open the doors on the shady side.");
    await page.locator("canvas").waitFor();
    await page.locator("svg.bars").waitFor();
    const labels = await page.locator('[role="img"]').evaluateAll((all) => all.map((each) => each.ariaLabel));
    expect(labels.join(" ")).toContain("Sessions per quarter-hour");
    expect(labels.join(" ")).toContain("over the limit of 40\u00a0°C");
    await until(async () => (await page.getByText("The same as a table").count()) === 3, "three tables");
    await page.getByText("The same as a table").first().click();
    expect(await page.locator("table").first().locator("tr").count()).toBeGreaterThan(8);
    const facts = await page.locator("dl.facts").innerText();
    expect(facts).toMatch(/folder D:\/layouts\s+is not there/);
    expect(facts).toMatch(/Kept aside\s+2 items could not be read/);
  });

  it("draws the curve in ink, not on an empty canvas", async () => {
    const stub = await aStub(onFire());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/sorrel`);
    await until(async () => (await inkedCanvases(page)).join() === "true", "the curve to be drawn");
    expect(await page.locator("svg.bars rect").count()).toBeGreaterThan(15);
  });

  it("says of an address without a booth that it is not known", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/nobody`);
    await sees(page, "This booth is not known here.");
  });
});
