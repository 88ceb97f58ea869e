import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import { allWell, oneWrong, watched } from "../../shots/scenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const headline = (page: Page) => page.locator("h1").innerText();

inChromium("Today in Chromium", () => {
  const openPage = chromiumPages();

  it("says the verdict first, then a card for each booth in the dashboard's order", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(stub.origin);
    await sees(page, "All four will make it to close.");
    const names = await page.locator("article.booth h2").allInnerTexts();
    expect(names).toEqual(["Juniper", "Marigold", "Thistle", "Sorrel"]);
    const marigold = page.locator('[data-booth="marigold"]');
    expect(await marigold.locator(".left").innerText()).toMatch(/^about\s\d+\s+left\ncounted$/);
    expect(await marigold.locator(".chip").innerText()).toBe("Fine");
    expect(await marigold.locator(".age").innerText()).toMatch(/\d+ s ago/);
  });

  it("moves a booth that stops to the top, says so at once and takes it back when it clears", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(stub.origin);
    await sees(page, "All four will make it to close.");
    const before = stub.state.booths[2];
    const stopped = oneWrong().booths[2];
    if (before === undefined || stopped === undefined) throw new Error("the scenes have four booths");
    stub.send({ kind: "booth", nowMs: stub.state.nowMs, booth: stopped });
    await sees(page, "Thistle's printer is out of paper: fit the spare roll.");
    expect(await page.locator("article.booth h2").first().innerText()).toBe("Thistle");
    expect(await page.locator('[aria-live="assertive"]').innerText()).toContain("Thistle");
    stub.send({ kind: "booth", nowMs: stub.state.nowMs, booth: before });
    await sees(page, "All four will make it to close.");
    expect(await page.locator('[aria-live="assertive"]').innerText()).toBe("");
  });

  it("says what is lost while the dashboard is out of reach, goes grey, and comes back by itself", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.clock.install({ time: stub.state.nowMs });
    await page.goto(stub.origin);
    await sees(page, "All four will make it to close.");
    stub.cutPages();
    await page.clock.runFor(10_000);
    await sees(page, "The dashboard cannot be reached; trying again.");
    expect(await headline(page)).toBe("All four will make it to close.");
    await page.clock.runFor(30_000);
    await until(
      async () => (await headline(page)).startsWith("No word from the dashboard"),
      "the grey verdict",
    );
    expect(await page.locator("article.booth .chip").allInnerTexts()).toEqual(Array(4).fill("Unknown"));
    stub.letIn();
    await until(async () => {
      await page.clock.runFor(5_000);
      return (await headline(page)) === "All four will make it to close.";
    }, "the page to come back");
    expect(await page.getByText("cannot be reached").count()).toBe(0);
  });

  it("says of each booth what is next and by when, and whether its paper lasts", async () => {
    const stub = await aStub(watched());
    const page = await openPage();
    await page.goto(stub.origin);
    await sees(page, "Keep an eye on four booths.");
    const said = await page.locator("article.booth p:not(.heat)").allInnerTexts();
    expect(said).toEqual([
      "Change the roll at 20:35, in the lull. Left as it is, it is empty about 22:00.",
      expect.stringMatching(/^Did you fit a new roll at 19:52\? Lasts to close, about \d+ to spare\.$/),
      "Look at the printer. Prints wait, and none has come out since 19:57.",
      expect.stringMatching(/^How many sheets are left\? Lasts to close, about \d+ to spare\.$/),
    ]);
  });

  it("marks an invented evening on top and on the card", async () => {
    const state = allWell();
    const played = state.booths.map((booth) => ({ ...booth, scenario: "Four booths on a Saturday" }));
    const stub = await aStub({ ...state, booths: played });
    const page = await openPage();
    await page.goto(stub.origin);
    await sees(page, "Invented evening “Four booths on a Saturday”.");
    expect(await page.locator("article .invented").count()).toBe(4);
  });

  it("counts on the age of a booth by itself", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.clock.install({ time: stub.state.nowMs });
    await page.goto(stub.origin);
    const age = page.locator('[data-booth="juniper"] .age');
    await age.waitFor();
    const seconds = async () => Number(/(\d+) s/.exec(await age.innerText())?.[1]);
    const first = await seconds();
    await until(async () => {
      await page.clock.runFor(1_000);
      return (await seconds()) >= first + 5;
    }, "the age to count on");
  });

  it("opens a booth's page by keyboard, and Back leads to Today again", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(stub.origin);
    await page.getByRole("link", { name: "Juniper" }).focus();
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Facts" }).waitFor();
    expect(page.url()).toBe(`${stub.origin}/booths/juniper`);
    expect(await page.evaluate(() => document.activeElement?.tagName)).toBe("H1");
    await page.goBack();
    await sees(page, "Thistle's printer is out of paper");
  });
});
