import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { openChromium } from "../support/chromium.ts";
import { allWell, nothingConnected, onFire, oneWrong, paperAlerts, watched } from "./scenes.ts";
import { attending, beforeDoors, storied } from "./peopleScenes.ts";
import { afterEvents, afterSilence } from "./reportScenes.ts";
import { settingUp } from "./planScenes.ts";
import { stockLate, stockLow, stockUncounted } from "./stockScenes.ts";
import { inTheSun, justSwitchedOn } from "./sunScenes.ts";
import { openStubDashboard } from "./stubDashboard.ts";
import type { StubState } from "./stubDashboard.ts";

type Size = { name: string; width: number; height: number; deviceScaleFactor: number };
type View = {
  name: string;
  address: string;
  prepare?: (page: Page) => Promise<void>;
  /** Taken in these scenes only. */
  scenes?: readonly string[];
  /** As the device shows it, not as tall as the page: what it holds keeps to the thumb. */
  isHeld?: boolean;
  /** As on paper. */
  isPrinted?: boolean;
};

const sizes: readonly Size[] = [
  { name: "phone", width: 390, height: 844, deviceScaleFactor: 2 },
  { name: "wide", width: 1280, height: 800, deviceScaleFactor: 1 },
];
const themes = ["light", "dark"] as const;
const scenes: Record<string, () => StubState> = {
  ...{ nothingConnected, allWell, watched, paperAlerts, oneWrong, onFire, inTheSun, justSwitchedOn },
  ...{ afterEvents, afterSilence },
  ...{ storied, attending, beforeDoors, settingUp, stockLow, stockLate, stockUncounted },
};

const views: readonly View[] = [
  { name: "today", address: "/" },
  {
    ...{ name: "reports", address: "/reports", scenes: ["nothingConnected", "afterEvents"] },
    prepare: compareTwo,
  },
  { name: "report", address: "/reports/evening", scenes: ["afterEvents", "afterSilence"] },
  { name: "report-client", address: "/r/evening", scenes: ["afterEvents", "afterSilence"] },
  { name: "report-printed", address: "/reports/evening", scenes: ["afterEvents"], isPrinted: true },
  { name: "checks", address: "/booths/juniper/checks", scenes: ["settingUp"] },
  { name: "load-out", address: "/run-sheet/booking-juniper/load-out", scenes: ["settingUp"] },
  {
    ...{ name: "load-out-printed", address: "/run-sheet/booking-juniper/load-out" },
    ...{ scenes: ["settingUp"], isPrinted: true },
  },
  { name: "door-sign", address: "/run-sheet/booking-juniper/door-sign", scenes: ["settingUp"] },
  {
    ...{ name: "door-sign-printed", address: "/run-sheet/booking-juniper/door-sign" },
    ...{ scenes: ["settingUp"], isPrinted: true },
  },
  { name: "plan", address: "/run-sheet", scenes: ["settingUp"], prepare: openBookingPlan },
  { name: "plan-form", address: "/run-sheet", scenes: ["settingUp"], prepare: openPlanForm },
  { name: "booth-thistle", address: "/booths/thistle" },
  { name: "booth-sorrel", address: "/booths/sorrel" },
  { name: "booth-marigold", address: "/booths/marigold" },
  { name: "booth-juniper", address: "/booths/juniper" },
  { name: "booth-juniper-tried", address: "/booths/juniper", prepare: tryLater },
  ...["12:00", "17:00"].map((clock) => ({
    ...{ name: `sun-plan-${clock.slice(0, 2)}`, address: "/booths/sorrel", scenes: ["inTheSun"] },
    prepare: openSunPlan(clock),
  })),
  {
    ...{ name: "sun-plan-print", address: "/booths/sorrel", scenes: ["inTheSun"], isPrinted: true },
    prepare: openSunPlan("17:00"),
  },
  { name: "sun-missing", address: "/booths/sorrel", scenes: ["justSwitchedOn"], prepare: openPlan },
  { name: "run-sheet-sun", address: "/run-sheet", scenes: ["inTheSun"], prepare: openPlan },
  { name: "set-up-walls", address: "/set-up", scenes: ["inTheSun"], prepare: changeSorrel },
  { name: "run-sheet-standing", address: "/run-sheet", scenes: ["inTheSun"], prepare: changeBooking },
  { name: "alerts", address: "/alerts" },
  { name: "alerts-opened", address: "/alerts", scenes: ["storied"], prepare: openFirstStory },
  ...["juniper", "marigold", "thistle", "sorrel"].map((boothId) => ({
    ...{ name: `attend-${boothId}`, address: `/booths/${boothId}/attend`, isHeld: true },
    scenes: ["allWell", "watched", "oneWrong", "onFire", "inTheSun", "storied", "beforeDoors"],
  })),
  { name: "attend-own", address: "/", scenes: ["attending"], isHeld: true },
  { name: "attend-paper", address: "/", scenes: ["attending"], prepare: openPaper },
  { name: "set-up-people", address: "/set-up", scenes: ["storied"], prepare: makePass },
  { name: "run-sheet", address: "/run-sheet" },
  { name: "run-sheet-replay", address: "/run-sheet", prepare: openReplay },
  { name: "run-sheet-form", address: "/run-sheet", prepare: (page) => page.click("text=Add a booking") },
  { name: "set-up", address: "/set-up" },
  {
    name: "stock",
    address: "/stock",
    scenes: ["stockLow", "stockLate", "stockUncounted", "nothingConnected"],
  },
  {
    name: "stock-move",
    address: "/stock",
    scenes: ["stockLow"],
    prepare: (page) => page.click("text=Move rolls"),
  },
  { name: "files", address: "/run-sheet", scenes: ["stockLow"], prepare: chooseFile("wrong") },
  { name: "files-good", address: "/run-sheet", scenes: ["stockLow"], prepare: chooseFile("good") },
];

/** A file for the run sheet; the stub takes one with this word in it, or finds a line wrong. */
function chooseFile(word: string) {
  return async (page: Page) => {
    await page.click("text=The run sheet as a file");
    const file = { name: "plan.csv", mimeType: "text/csv", buffer: Buffer.from(word) };
    await page.getByLabel("Bookings from a file").setInputFiles(file);
    await page.getByText(word === "wrong" ? "Nothing was kept" : "Keep all").waitFor();
  };
}

async function tryLater(page: Page): Promise<void> {
  await page.getByRole("switch").check();
  await page.getByRole("slider").fill("60");
  await page.click("text=Make it so");
  await page.click("text=Another roll");
}

async function openReplay(page: Page): Promise<void> {
  await page.click("summary");
  await page.click("text=How the forecast did");
  await page.click("text=The same as a table");
}

async function compareTwo(page: Page): Promise<void> {
  for (const box of (await page.getByRole("checkbox").all()).slice(0, 2)) await box.check();
}

async function openPlan(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Sun on the printer, from above" }).last().click();
  await page.locator(".sunplan").waitFor();
}

/** The plan with its slider at a clock time of the Saturday. */
function openSunPlan(clock: string) {
  return async (page: Page) => {
    await openPlan(page);
    const slider = page.getByRole("slider", { name: "Time of day" });
    const [hours = 0, minutes = 0] = clock.split(":").map(Number);
    // The slider goes in steps of five minutes from the sun's rise, which it tells itself.
    await slider.fill("0");
    const [riseHours = 0, riseMinutes = 0] = ((await slider.getAttribute("aria-valuetext")) ?? "")
      .slice(0, 5)
      .split(":")
      .map(Number);
    await slider.fill(String((hours * 60 + minutes - riseHours * 60 - riseMinutes) / 5));
  };
}

async function openFirstStory(page: Page): Promise<void> {
  await page.getByText("Who said what, who was told").first().click();
  await page.getByText("Silenced (1)").click();
  await page.getByRole("button", { name: "Send me a test" }).click();
  await page.getByText("came after").first().waitFor();
}

async function openPaper(page: Page): Promise<void> {
  await page.getByRole("button", { name: "New roll, or correct the count" }).click();
  await page.getByText("Changed the paper?").waitFor();
}

async function makePass(page: Page): Promise<void> {
  await page.getByLabel("Name of the attendant").fill("Ben Tansy");
  await page.getByLabel(/Juniper/).check();
  await page.getByRole("button", { name: "Make the link" }).click();
  await page.getByRole("img", { name: "The link as a code for a phone’s camera" }).waitFor();
  await page.getByRole("button", { name: "Add a way" }).click();
}

async function openBookingPlan(page: Page): Promise<void> {
  const juniper = page.locator("article", { has: page.getByRole("heading", { name: /Juniper/ }) }).first();
  await juniper.getByRole("button", { name: "Plan" }).click();
  await juniper.locator(".power").waitFor();
}

async function openPlanForm(page: Page): Promise<void> {
  const juniper = page.locator("article", { has: page.getByRole("heading", { name: /Juniper/ }) }).first();
  await juniper.getByRole("button", { name: "Change" }).click();
  await page.getByText("People and print (if you like)").click();
  await page.getByText("Power (if you like)").click();
  await page.getByLabel("Breaker, amperes").fill("16");
}

async function changeSorrel(page: Page): Promise<void> {
  const sorrel = page.locator("section", { has: page.getByRole("heading", { name: "Sorrel" }) });
  await sorrel.getByRole("button", { name: "Change" }).click();
}

async function changeBooking(page: Page): Promise<void> {
  const sorrel = page.locator("article", { has: page.getByRole("heading", { name: /Sorrel/ }) }).first();
  await sorrel.getByRole("button", { name: "Change" }).click();
}

/** Pages that look the same in every state. */
const outside: readonly View[] = [
  { name: "sign-in", address: "/sign-in" },
  { name: "first-run", address: "/first-run#code=K7QM-2D4X" },
  { name: "join", address: "/join#pass=4f7Kq2" },
  { name: "heard", address: "/heard#delivery=d1&secret=s1" },
];

/**
 * Takes a picture of every page in every state, size and theme. `only` keeps those whose name has that text.
 * Gives how many were taken.
 */
export async function takeShots(wish: { webDir: string; folder: string; only: string }): Promise<number> {
  const browser = await openChromium();
  if (browser === null) throw new Error("npm run shots needs Chromium: apt-get install chromium");
  let count = 0;
  for (const [scene, makeState] of Object.entries(scenes)) {
    const hasBooths = makeState().booths.length > 0;
    const shown = [
      ...views
        .filter((view) => view.scenes?.includes(scene) ?? true)
        .filter((view) => hasBooths || !(view.name.startsWith("booth-") || view.prepare !== undefined)),
      ...(scene === "allWell" ? outside : []),
    ];
    for (const view of shown)
      for (const size of sizes)
        for (const theme of themes) {
          const name = `${view.name}.${scene}.${size.name}.${theme}.png`;
          if (!name.includes(wish.only)) continue;
          await takeShot(browser, wish.webDir, makeState(), view, size, theme, join(wish.folder, name));
          count += 1;
        }
  }
  await browser.close();
  return count;
}

async function takeShot(
  browser: Browser,
  webDir: string,
  state: StubState,
  view: View,
  size: Size,
  theme: (typeof themes)[number],
  path: string,
): Promise<void> {
  if (
    view.address.startsWith("/join") ||
    view.address.startsWith("/sign-in") ||
    view.address.startsWith("/first-run")
  ) {
    state.signedIn = null;
    state.isFirstRun = view.address.startsWith("/first-run");
  }
  const stub = await openStubDashboard(webDir, state);
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    deviceScaleFactor: size.deviceScaleFactor,
    colorScheme: theme,
    reducedMotion: "reduce",
    serviceWorkers: "block",
    locale: "en-GB",
    timezoneId: "Europe/Berlin",
  });
  const page = await context.newPage();
  await page.goto(stub.origin + view.address);
  await page.waitForFunction(
    () => !["", "Asking how the booths are."].includes(document.querySelector("h1")?.textContent ?? ""),
  );
  await page.waitForLoadState("networkidle");
  await view.prepare?.(page);
  await page.evaluate(() => document.fonts.ready);
  await page.waitForFunction(() => document.fonts.size === 3);
  await page.waitForLoadState("networkidle");
  // A window as tall as the page, so that the tabs at the bottom do not lie over its middle.
  const tall = await page.evaluate(() => document.documentElement.scrollHeight);
  if (view.isHeld !== true)
    await page.setViewportSize({ width: size.width, height: Math.max(size.height, tall) });
  if (view.isPrinted === true) await page.emulateMedia({ media: "print" });
  await page.screenshot({ path, fullPage: view.isPrinted === true });
  await context.close();
  await stub.close();
}
