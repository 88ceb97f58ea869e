import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import { settingUp } from "../../shots/planScenes.ts";
import { aDashboard, owner } from "../../support/aDashboard.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { handTime } from "../../support/handTime.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

/** 16:30 in Berlin on an invented Saturday. */
const halfPastFourMs = Date.UTC(2026, 5, 20, 14, 30);

const entryOf = (page: Page, name: RegExp) =>
  page.locator("article", { has: page.getByRole("heading", { name }) }).first();

inChromium("the plan in Chromium, on a phone", () => {
  const openPage = chromiumPages();

  it("leads a newcomer from the first booth over its booking to its opening checks", async () => {
    const time = handTime(halfPastFourMs);
    const dashboard = await aDashboard({ clock: time.clock, pagesDir: builtPages });
    const page = await openPage();
    await page.goto(dashboard.firstRunUrl ?? "");
    await page.getByLabel("Name").fill(owner.name);
    await page.getByLabel("Password", { exact: true }).fill(owner.password);
    await page.getByRole("button", { name: "Make it mine" }).click();
    await page.getByLabel("Name of the booth").fill("Juniper");
    await page.getByRole("button", { name: "Add the booth" }).click();
    await page.locator(".code").waitFor();

    await page.getByRole("link", { name: "Run sheet" }).click();
    await page.getByRole("button", { name: "Add a booking" }).click();
    await page.getByLabel("Client").fill("Fern and Rowan");
    await page.getByLabel("Kind of event").fill("wedding");
    await page.getByLabel("Date").fill("2026-06-20");
    await page.getByLabel("Guests").fill("150");
    await page.getByLabel("From a map: paste a link or a position").fill("geo:52.2085,13.41;u=20");
    expect(await page.getByLabel("Latitude").inputValue()).toBe("52.2085");
    await page.getByText("Power (if you like)").click();
    await page.getByLabel("Where it comes from").selectOption("mains");
    await page.getByLabel("Breaker, amperes").fill("10");
    await page.getByLabel("Its watts").first().fill("2000");
    await sees(page, "87 % of the breaker: more than 80 % for hours may trip it.");
    await page.getByRole("button", { name: "Save" }).click();

    const entry = entryOf(page, /Juniper · Fern and Rowan/);
    await entry.getByRole("button", { name: "Plan" }).click();
    await sees(page, /^Bring \w+ rolls of 400/);
    await sees(page, "87 % of the breaker");
    await entry.getByRole("link", { name: "Opening checks" }).first().click();
    await sees(page, /things to do before doors at 18:00\.$/);
    expect(new URL(page.url()).pathname).toMatch(/^\/booths\/[^/]+\/checks$/);
    await page.getByRole("button", { name: "Done: Booth level and steady" }).click();
    await sees(page, `${owner.name}, 16:30`);
    await page.getByRole("button", { name: "It has power" }).click();
    await sees(page, "Powered since 16:30.");
    await page.getByRole("button", { name: "Take it back", exact: true }).click();
    await sees(page, "Nobody has said yet where the booth stands.");
    await page.reload();
    await sees(page, `${owner.name}, 16:30`);
  });

  it("ticks what goes into the van, and prints it with a sign of the lines that were written", async () => {
    const stub = await aStub(settingUp());
    const page = await openPage();
    await page.goto(`${stub.origin}/run-sheet/booking-juniper/load-out`);
    await page.getByLabel("Grey card").check();
    await until(() => stub.asked.length === 1, "the tick to be sent");
    expect(stub.asked[0]).toMatchObject({
      address: "/api/booths/juniper/facts",
      body: { kind: "check", check: "load.greyCard", isDone: true },
    });
    await page.emulateMedia({ media: "print" });
    expect(await page.getByRole("button", { name: "Print the list" }).isVisible()).toBe(false);

    await page.emulateMedia({ media: "screen" });
    await page.goto(`${stub.origin}/run-sheet/booking-juniper/door-sign`);
    await page.getByLabel("Lines on the sign, one each").fill("At most four people\n\nNo drinks inside");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".sign li").allInnerTexts()).toEqual([
      "At most four people",
      "No drinks inside",
    ]);
    expect(await page.getByLabel("Lines on the sign, one each").isVisible()).toBe(false);
  });

  it("says what clashes, and copies a booking to a date that is asked for", async () => {
    const stub = await aStub(settingUp());
    const page = await openPage();
    await page.goto(`${stub.origin}/run-sheet`);
    const entry = entryOf(page, /Juniper · Fern and Rowan/);
    await entry.getByRole("button", { name: "Plan" }).click();
    await sees(page, "It cannot all be kept");
    await entry.getByRole("button", { name: "Copy to another date" }).click();
    await page.getByRole("heading", { name: "Copy Fern and Rowan to another date" }).waitFor();
    expect(await page.getByLabel("Date").inputValue()).toBe("");
    await page.getByLabel("Date").fill("2026-07-04");
    await page.getByText("People and print (if you like)").waitFor();
    await page.getByRole("button", { name: "Save" }).click();
    await until(() => stub.asked.length === 1, "the copy to be sent");
    const [{ method, address, body } = { method: "", address: "", body: null }] = stub.asked;
    expect([method, address]).toEqual(["POST", "/api/bookings"]);
    const [before] = stub.state.bookings.filter(({ bookingId }) => bookingId === "booking-juniper");
    expect(body).toMatchObject({
      client: "Fern and Rowan",
      notes: before?.notes,
      power: before?.power,
      eventId: null,
    });
    expect((body as { openAtMs: number }).openAtMs - (before?.openAtMs ?? NaN)).toBe(14 * 86_400_000);
  });
});
