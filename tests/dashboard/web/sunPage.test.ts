import type { Page } from "playwright-core";
import { expect, it, onTestFinished, vi } from "vitest";
import { inTheSun, justSwitchedOn } from "../../shots/sunScenes.ts";
import { openStubDashboard } from "../../shots/stubDashboard.ts";
import type { StubState } from "../../shots/stubDashboard.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { sees } from "../../support/aStub.ts";
import { inkedCanvases } from "../../support/inkedCanvases.ts";
import { needsTool } from "../../support/needsTool.ts";
import { aTrailerBox } from "../../support/aTrailerBox.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const opensPlan = (page: Page) =>
  page.getByRole("button", { name: "Sun on the printer, from above" }).first().click();

type Site = { readonly latitudeDeg: number; readonly longitudeDeg: number };

/** The same day with Sorrel at another place on earth. */
function standingAt(state: StubState, site: Site): StubState {
  const booths = state.booths.map((booth) =>
    booth.boothId === "sorrel" && booth.booking !== null
      ? { ...booth, booking: { ...booth.booking, ...site } }
      : booth,
  );
  return { ...state, booths };
}

/** The form of the booth whose openings are being written. */
const openingForm = (page: Page) =>
  page.locator("form", { has: page.getByRole("group", { name: /^Opening 1/ }) });

inChromium("heat and sun in Chromium", () => {
  const openPage = chromiumPages();

  async function aSunPage(state: StubState, address: string) {
    const stub = await openStubDashboard(builtPages, state);
    onTestFinished(() => stub.close());
    const page = await openPage();
    await page.goto(stub.origin + address);
    return { page, stub };
  }

  /** The plan from above of Sorrel at another place on earth. */
  async function aPlanAt(site: Site) {
    const { page } = await aSunPage(standingAt(inTheSun(), site), "/booths/sorrel");
    await opensPlan(page);
    return { page, plan: page.locator(".sunplan") };
  }

  it("says the next hour with its chance, draws it, and has it as a table", async () => {
    const { page } = await aSunPage(inTheSun(), "/booths/sorrel");
    await sees(page, "Passes 40\u00a0°C about 17:45 as it goes; eight in ten that it does within the hour.");
    await until(async () => (await inkedCanvases(page)).join() === "true", "the curve to be drawn");
    const heat = page.locator("section", { has: page.locator("canvas") });
    await heat.getByText("The same as a table").click();
    expect(await heat.locator("th[scope=rowgroup]").allInnerTexts()).toEqual(["Measured", "Expected"]);
    expect(await heat.locator("tbody").last().locator("tr").count()).toBe(5);
  });

  it("says what the air means for paper and people, with the caution", async () => {
    const { page } = await aSunPage(inTheSun(), "/booths/sorrel");
    const facts = page.locator("dl.facts").last();
    await sees(page, "Dew point");
    const text = await facts.innerText();
    expect(text).toMatch(/feels like 43\u00a0°C: danger/);
    expect(text).toContain("no safety device");
    expect(text).toContain("stays in a closed trailer in the sun");
  });

  it("shows the sun on the printer as a band above the evening, and says it", async () => {
    const { page } = await aSunPage(inTheSun(), "/booths/sorrel");
    await sees(page, /The band on top is the sun on the printer, 17:\d\d to 19:\d\d\./);
    expect(await page.locator("svg.strip path.sun").count()).toBe(1);
  });

  it("makes no forecast of too few readings", async () => {
    const { page } = await aSunPage(justSwitchedOn(), "/booths/sorrel");
    await sees(page, "Not enough readings yet for a look ahead.");
  });

  it("moves the plan from above with its slider, by finger and by key", async () => {
    const { page } = await aSunPage(inTheSun(), "/booths/sorrel");
    await opensPlan(page);
    const plan = page.locator(".sunplan");
    const slider = plan.getByRole("slider");
    await slider.waitFor();
    const picture = plan.locator("svg.from-above");
    await slider.fill("160");
    expect(await picture.getAttribute("aria-label")).toContain("the printer is in the sun");
    expect(await picture.locator(".ray").count()).toBe(1);
    expect(await picture.locator("rect.printer.lit").count()).toBe(1);
    await slider.fill("85");
    expect(await picture.getAttribute("aria-label")).toContain("the printer is in the shade");
    expect(await picture.locator(".ray").count()).toBe(0);
    const before = await slider.getAttribute("aria-valuetext");
    await slider.press("ArrowRight");
    expect(await slider.getAttribute("aria-valuetext")).not.toBe(before);
  });

  it("has the plan as a table, says where to stand, and follows another date", async () => {
    const { page } = await aSunPage(inTheSun(), "/booths/sorrel");
    await opensPlan(page);
    const plan = page.locator(".sunplan");
    await sees(page, "Turned 75° to the left, no sun reaches the printer in the open hours.");
    const cells = await plan.locator("table").first().locator("td").allInnerTexts();
    expect(cells[0]).toBe("left opening");
    const heading = await plan.locator("h3").first().innerText();
    expect(heading).toContain(`from ${cells[1]} to ${cells[2]} through the left opening`);
    await plan.getByLabel("Day", { exact: true }).fill("2026-12-19");
    await until(async () => (await plan.locator("h3").first().innerText()) !== heading, "the other day");
    await sees(page, "Saturday 19 December");
  });

  it("draws the sun of the far north: all day in June, and none in December", async () => {
    const { page, plan } = await aPlanAt({ latitudeDeg: 78.2, longitudeDeg: 15.6 });
    await sees(page, "The sun does not set there that day.");
    expect(await plan.locator("svg.from-above path").count()).toBeGreaterThan(0);
    await plan.getByLabel("Day", { exact: true }).fill("2026-12-19");
    await sees(page, "The sun does not rise there on Saturday 19 December: none reaches the printer.");
    expect(await plan.getByRole("slider").count()).toBe(0);
    expect(await plan.innerText()).not.toMatch(/NaN|Invalid/);
  });

  it("draws the sun on the equator, north of the booth in June and south of it in December", async () => {
    const { page, plan } = await aPlanAt({ latitudeDeg: 0, longitudeDeg: 11 });
    await plan.getByRole("slider").waitFor();
    // 90 less the declination of 23.4 degrees (Astronomical Almanac): 66 to 67 at noon, due north or due south.
    await plan.getByText("Hour by hour").click();
    const hours = () => plan.locator("details").innerText();
    expect(await hours()).toContain("13:00\t66° N\t");
    await plan.getByLabel("Day", { exact: true }).fill("2026-12-19");
    await sees(page, "Saturday 19 December");
    expect(await hours()).toContain("12:00\t66° S\t");
    expect(await plan.innerText()).not.toMatch(/NaN|Invalid/);
  });

  it("says what is missing and leads to where it is entered", async () => {
    const { page } = await aSunPage(justSwitchedOn(), "/booths/sorrel");
    await opensPlan(page);
    await sees(page, "How the booth is built is not known");
    await page.getByRole("link", { name: "Open Set-up" }).click();
    await page.getByRole("heading", { name: "This device" }).waitFor();
  });

  it("sends a trailer's walls as written, and shows a refusal at its field", async () => {
    const { page, stub } = await aSunPage(inTheSun(), "/set-up");
    const sorrel = page.locator("section", { has: page.getByRole("heading", { name: "Sorrel" }) });
    await sorrel.getByRole("button", { name: "Change" }).click();
    const first = page.getByRole("group", { name: "Opening 1: door, hatch or window" });
    await first.getByLabel("Opening's width (m)").fill("4.5");
    stub.refuseNext({
      ...{ error: "wrongField", field: "box.openings[0].widthM" },
      sentence: "box.openings[0].widthM: 4.5 is wider than the wall it is in.",
    });
    await openingForm(page).getByRole("button", { name: "Save" }).click();
    await sees(page, "4.5 is wider than the wall it is in.");
    const width = first.getByLabel("Opening's width (m)");
    expect(await width.getAttribute("aria-invalid")).toBe("true");
    expect(await width.evaluate((input) => input === document.activeElement)).toBe(true);
    await width.fill("0.8");
    await openingForm(page).getByRole("button", { name: "Save" }).click();
    await until(() => stub.asked.length === 2, "the walls to be sent again");
    expect(stub.asked[1]?.body).toMatchObject({ name: "Sorrel", isTrailer: true, box: aTrailerBox() });
  });

  it("takes out the first of two openings and keeps what the second says", async () => {
    const { page, stub } = await aSunPage(inTheSun(), "/set-up");
    const sorrel = page.locator("section", { has: page.getByRole("heading", { name: "Sorrel" }) });
    await sorrel.getByRole("button", { name: "Change" }).click();
    await page.getByRole("button", { name: "Take out opening 1" }).click();
    await openingForm(page).getByRole("button", { name: "Save" }).click();
    await until(() => stub.asked.length === 1, "the walls to be sent");
    const box = aTrailerBox();
    expect(stub.asked[0]?.body).toMatchObject({ box: { ...box, openings: box.openings.slice(1) } });
  });

  it("works the heading out from a shadow, and sends it with the day's high", async () => {
    const { page, stub } = await aSunPage(inTheSun(), "/run-sheet");
    const sorrel = page.locator("article", { has: page.getByRole("heading", { name: /Sorrel/ }) });
    await sorrel.getByRole("button", { name: "Change" }).click();
    await page.getByText("Heading from a shadow").click();
    // The sun is due south there at 13:17 by the clocks, so that shadows fall to the north.
    await page.getByLabel("Shadow, degrees from the front").fill("30");
    await page.getByLabel("At this time there").fill("13:17");
    await page.getByRole("button", { name: "Work out the heading" }).click();
    await sees(page, "Heading 330°.");
    await page.getByLabel("Expected high (°C)").fill("33");
    await page.getByRole("button", { name: "Save" }).click();
    await until(() => stub.asked.length === 1, "the booking to be sent");
    expect(stub.asked[0]?.body).toMatchObject({
      standing: { headingDeg: 330, horizon: [], expectedHighC: 33 },
    });
  });
});
