import type { StoredItem } from "@boothward/shared-types";
import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import * as z from "zod";
import { openApi } from "../../../seeds/dashboardApi.ts";
import { settingUp } from "../../shots/planScenes.ts";
import { addBooth, aDashboard, anOwner, owner, signIn, type ADashboard } from "../../support/aDashboard.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { aGreetedLink, type ALinkClient } from "../../support/aLinkClient.ts";
import { aPlan } from "../../support/aPlan.ts";
import { buy, fullAt, see } from "../../support/aStockedDashboard.ts";
import { aStoredItem, minuteMs } from "../../support/aStoredItem.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { handTime } from "../../support/handTime.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const bookingList = z.object({
  bookings: z.array(
    z.object({ client: z.string(), latitudeDeg: z.number().nullable(), guests: z.number().nullable() }),
  ),
});

/** 16:30 in Berlin on an invented Saturday. */
const halfPastFourMs = Date.UTC(2026, 5, 20, 14, 30);

const entryOf = (page: Page, name: RegExp) =>
  page.locator("article", { has: page.getByRole("heading", { name }) }).first();

const boothThatIsWell: readonly StoredItem[] = [
  aStoredItem("printerState", { source: "printer" }),
  aStoredItem("media", { source: "printer", sheetsLeft: 390, ageMs: 0 }),
  aStoredItem("peer", { source: "usb", name: "USB camera" }),
  aStoredItem("power", { source: "host" }),
  aStoredItem("machine", { source: "machine" }),
  aStoredItem("host", { source: "host", diskFreeMb: 90_000 }),
  aStoredItem("inside", { source: "thermometers", insideC: 22, humidityPct: 45 }),
];
const aTestPrint = aStoredItem("print", { source: "printer", printId: "test" });
const aPrinterLine = aStoredItem("printerState", { source: "printer" });

/** An item as an agent sends it: where and when it came in is the dashboard's to say. */
const withoutStamps = (item: StoredItem) =>
  Object.fromEntries(
    Object.entries(item).filter(([name]) => !["boothId", "bootId", "receivedAtMs"].includes(name)),
  );

async function makeAccount(page: Page, firstRunUrl: string): Promise<void> {
  await page.goto(firstRunUrl);
  await page.getByLabel("Name").fill(owner.name);
  await page.getByLabel("Password", { exact: true }).fill(owner.password);
  await page.getByRole("button", { name: "Make it mine" }).click();
}

/** Names the first booth, and pairs an agent with the code that the page shows. */
async function pairFirstBooth(page: Page, dashboard: ADashboard): Promise<ALinkClient> {
  await page.getByLabel("Name of the booth").fill("Juniper");
  await page.getByRole("button", { name: "Add the booth" }).click();
  const code = await page.locator(".code").innerText();
  const asked = { code, agentId: "agent-1", hostName: "juniper-tablet" };
  const { token } = await openApi(dashboard.url).post("/api/pair", asked, z.object({ token: z.string() }));
  return aGreetedLink(dashboard.url, token);
}

async function planTheEvening(page: Page): Promise<void> {
  await page.getByRole("link", { name: "Run sheet" }).click();
  await page.getByRole("button", { name: "Add a booking" }).click();
  await page.getByLabel("Client").fill("Fern and Rowan");
  await page.getByLabel("Kind of event").fill("wedding");
  await page.getByLabel("Guests", { exact: true }).fill("150");
  await page.getByLabel("From a map: paste a link or a position").fill("geo:52.2085,13.41;u=20");
  expect(await page.getByLabel("Latitude").inputValue()).toBe("52.2085");
  await page.getByText("Power (if you like)").click();
  await page.getByLabel("Where it comes from").selectOption("mains");
  await page.getByLabel("Breaker, amperes").fill("10");
  await page.getByLabel("Its watts").first().fill("2000");
  await sees(page, "87 % of the breaker: more than 80 % for hours may trip it.");
  await page.getByRole("button", { name: "Save" }).click();
}

/** Ticks whatever waits for a person, one after the other. */
async function tickAll(page: Page): Promise<void> {
  const open = page.locator(".check.toDo, .check.question, .check.notPossible");
  for (let left = await open.count(); left > 0; left = await open.count()) {
    await open.first().locator("> .btn").last().click();
    await until(async () => (await open.count()) < left, "the tick to be taken");
  }
}

inChromium("the plan in Chromium, on a phone", () => {
  const openPage = chromiumPages();

  it("leads a newcomer from the first link to an open event by the pages alone, with an hour more at the end", async () => {
    const time = handTime(halfPastFourMs);
    const dashboard = await aDashboard({ clock: time.clock, pagesDir: builtPages });
    const page = await openPage();
    await makeAccount(page, dashboard.firstRunUrl ?? "");
    const link = await pairFirstBooth(page, dashboard);
    const sent = (seq: number, item: StoredItem) => ({
      ...withoutStamps(item),
      ...{ seq, atMs: time.clock().wallMs, monoMs: time.clock().monoMs },
    });
    link.batch(
      "boot-1",
      0,
      boothThatIsWell.map((item, at) => sent(at + 1, item)),
    );
    await link.next("ack");

    await planTheEvening(page);
    const entry = entryOf(page, /Juniper · Fern and Rowan/);
    await entry.getByRole("button", { name: "Plan" }).click();
    await sees(page, /^Bring \w+ rolls of 400/);
    await sees(page, "87 % of the breaker");
    await entry.getByRole("link", { name: "Opening checks" }).click();

    await sees(page, /^Eight things to do before doors at 18:00\.$/);
    link.batch("boot-1", boothThatIsWell.length, [sent(boothThatIsWell.length + 1, aTestPrint)]);
    await link.next("ack");
    await dashboard.tick();
    await sees(page, /^Seven things to do before doors at 18:00\.$/);
    await page.getByRole("button", { name: "Send me a test" }).click();
    await sees(page, "There is no way to reach you yet");
    await tickAll(page);
    await sees(page, "All is checked. Doors at 18:00.");

    await page.getByRole("button", { name: "It has power" }).click();
    await sees(page, "Powered since 16:30.");
    await page.getByRole("button", { name: "It is checked" }).click();
    await sees(page, "Checked since 16:30.");
    time.pass(90 * minuteMs);
    link.batch("boot-1", boothThatIsWell.length + 1, [sent(boothThatIsWell.length + 2, aPrinterLine)]);
    await link.next("ack");
    await dashboard.tick();
    await page.getByRole("button", { name: "Open the doors" }).click();
    await sees(page, "Open since 18:00. It closes at 23:00.");

    await page.getByRole("button", { name: "An hour longer, to 00:00" }).click();
    await sees(page, "It closes at 00:00.");
    await page.getByRole("button", { name: "Take it back", exact: true }).click();
    await sees(page, "It closes at 23:00.");
    await page.getByRole("link", { name: "Juniper" }).click();
    await sees(page, /Juniper/);
    const { bookings } = await (await signIn(dashboard)).get("/api/bookings", bookingList);
    expect(bookings).toMatchObject([{ client: "Fern and Rowan", latitudeDeg: 52.2085, guests: 150 }]);
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

  it("offers to move ticked rolls in the stock, and to put them back there", async () => {
    const time = handTime(halfPastFourMs);
    const dashboard = await aDashboard({ clock: time.clock, pagesDir: builtPages });
    const api = await anOwner(dashboard);
    const boothId = await addBooth(api);
    const hours = { openAtMs: halfPastFourMs + 90 * minuteMs, closeAtMs: halfPastFourMs + 390 * minuteMs };
    const { bookingId } = await api.post(
      ...(["/api/bookings", aPlan(boothId, hours), z.object({ bookingId: z.string() })] as const),
    );
    await buy(api, 20);
    const page = await openPage();
    const [name = "", value = ""] = api.cookie().split("=");
    await page.context().addCookies([{ name, value, url: dashboard.url }]);
    await page.goto(`${dashboard.url}/run-sheet/${bookingId}/load-out`);
    const rolls = page.getByLabel(/rolls, paper and ribbon/);
    await rolls.check();
    const move = page.getByRole("button", {
      name: /^In the stock: \d rolls from the store into Juniper's case$/,
    });
    await move.click();
    await sees(page, /^In the stock \d rolls have gone from the store into Juniper's case\.$/);
    const inStore = async () => fullAt(await see(api), "store");
    const moved = 20 - (await inStore());
    expect(moved).toBeGreaterThan(0);
    expect(fullAt(await see(api), `case:${boothId}`)).toBe(moved);
    await page.getByRole("button", { name: "Put them back in the stock" }).click();
    await until(async () => (await inStore()) === 20, "the rolls to be put back");
    await move.waitFor();
    await rolls.uncheck();
    await move.waitFor({ state: "detached" });
  });

  it("says what clashes, and copies a booking to a date that is asked for", async () => {
    const stub = await aStub(settingUp());
    const page = await openPage();
    await page.goto(`${stub.origin}/run-sheet`);
    const entry = entryOf(page, /Juniper · Fern and Rowan/);
    await entry.getByText("It cannot all be kept").waitFor();
    await entry.getByRole("button", { name: "Plan" }).click();
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
      alongside: [],
    });
    expect((body as { openAtMs: number }).openAtMs - (before?.openAtMs ?? NaN)).toBe(14 * 86_400_000);
  });
});
