import type { Page } from "playwright-core";
import { expect, it, onTestFinished, vi } from "vitest";
import { at } from "../../shots/saturday.ts";
import { watched } from "../../shots/scenes.ts";
import { openStubDashboard } from "../../shots/stubDashboard.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { sees } from "../../support/aStub.ts";
import { inkedCanvases } from "../../support/inkedCanvases.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const presses = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).first().click();

inChromium("what a person says and tries on a booth's page", () => {
  const openPage = chromiumPages();

  async function aWatchedPage(address: string) {
    const stub = await openStubDashboard(builtPages, watched());
    onTestFinished(() => stub.close());
    const page = await openPage();
    await page.goto(stub.origin + address);
    return { page, stub, said: () => stub.asked.map((each) => each.body) };
  }

  it("answers the one question with a tap, and says so as a fact of that moment", async () => {
    const { page, stub, said } = await aWatchedPage("/booths/marigold");
    await sees(page, "Did you fit a new roll at 19:52?");
    await presses(page, "Yes, 300 sheets");
    await sees(page, "Thank you. The figures follow in a moment.");
    expect(stub.asked[0]?.address).toBe("/api/booths/marigold/facts");
    expect(said()).toEqual([{ kind: "rollFitted", sheets: 300, atMs: at("19:52") }]);
  });

  it("keeps the question and says why when the answer was refused", async () => {
    const { page, stub } = await aWatchedPage("/booths/marigold");
    await sees(page, "Did you fit a new roll at 19:52?");
    stub.refuseNext({ error: "tooLate", sentence: "That evening is over.", field: null });
    await presses(page, "No");
    await sees(page, "That evening is over.");
    await presses(page, "No");
    await sees(page, "Thank you. The figures follow in a moment.");
    expect(stub.asked.at(-1)?.body).toEqual({ kind: "rollDenied", atMs: at("19:52") });
  });

  it("asks a count that is more than a full roll twice", async () => {
    const { page, said } = await aWatchedPage("/booths/sorrel");
    await page.getByLabel("Sheets left on the roll").fill("1300");
    await presses(page, "That many");
    await sees(page, "1300 is more than a full roll of 300.");
    expect(said()).toEqual([]);
    await page.getByLabel("Sheets left on the roll").fill("130");
    await presses(page, "That many");
    await sees(page, "Thank you. The figures follow in a moment.");
    expect(said()).toEqual([{ kind: "correction", sheetsLeft: 130 }]);
  });

  it("tells a new roll with one tap and asks whether the old one is set aside", async () => {
    const { page, said } = await aWatchedPage("/booths/juniper");
    await presses(page, "New roll, 300 sheets");
    await sees(page, "About 55 sheets were left on the roll before. Is it set aside?");
    await presses(page, "Yes, in the box");
    await sees(page, "Kept: Roll taken off.");
    expect(said()).toEqual([
      { kind: "rollFitted", sheets: 300 },
      { kind: "rollTakenOff", sheetsLeft: null, atMs: at("20:02") - 1000 },
    ]);
  });

  it("takes back what was said with the second tap only", async () => {
    const { page, said } = await aWatchedPage("/booths/juniper");
    await presses(page, "Take back");
    await sees(page, "Go on counting as if it had not been said?");
    expect(said()).toEqual([]);
    await presses(page, "Yes, take it back");
    await until(() => said().length === 1, "the word to be taken back");
    expect(said()).toEqual([{ kind: "takenBack", bootId: "person", seq: 3 }]);
  });

  it("answers the slider and the switch at once, and sends a later close with the second tap only", async () => {
    const { page, said } = await aWatchedPage("/booths/juniper");
    const sheet = page.locator("section", { has: page.getByRole("slider") });
    const heading = () => sheet.locator("h2").innerText();
    await page.getByRole("slider").waitFor();
    expect(await heading()).toBe("55 sheets left, enough until about 22:00; close is at 23:00.");
    await page.getByRole("slider").fill("60");
    expect(await heading()).toMatch(/^Open until midnight: the loaded roll ends about 22:\d\d\.$/);
    await sees(page, "One more roll makes sure of the close, and one is at the booth.");
    await page.getByRole("switch").check();
    expect(await heading()).toMatch(/^With one print a session, open until midnight: .* about 2\d:\d\d\.$/);
    expect(await sheet.locator("svg .tried").count()).toBe(3);
    await presses(page, "Make it so");
    await sees(page, "Move the close from 23:00 to midnight?");
    expect(said()).toEqual([]);
    await presses(page, "Yes, close at midnight");
    await sees(page, "The close is moved to midnight.");
    expect(said()).toEqual([{ kind: "extended", bookingId: "booking-juniper", closeAtMs: at("24:00") }]);
  });

  it("works by keyboard alone", async () => {
    const { page, said } = await aWatchedPage("/booths/juniper");
    await page.getByRole("slider").focus();
    await page.keyboard.press("ArrowRight");
    await sees(page, "close 23:15");
    await page.getByRole("button", { name: "Waste" }).focus();
    await page.keyboard.press("Enter");
    await page.getByLabel("Sheets that no guest got").fill("2");
    await page.keyboard.press("Enter");
    await sees(page, "Kept: 2 sheets of waste.");
    expect(said()).toEqual([{ kind: "waste", pitches: 2, cause: "spoilt" }]);
  });

  it("shows how the forecast did at a past booking, as a sentence, a curve and a table", async () => {
    const { page } = await aWatchedPage("/run-sheet");
    await page.getByText("Past (1)").click();
    await presses(page, "How the forecast did");
    await sees(
      page,
      "It would have warned at 19:30, 2 hours 40 minutes before the roll was changed at 22:10.",
    );
    await until(async () => (await inkedCanvases(page)).join() === "true", "the curve to be drawn");
    expect(await page.locator("canvas").getAttribute("aria-label")).toContain(
      "It would have warned at 19:30",
    );
    await page.getByText("The same as a table").click();
    expect(await page.locator("table tbody tr").count()).toBe(20);
  });
});
