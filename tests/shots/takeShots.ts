import { join } from "node:path";
import type { Browser, Page } from "playwright-core";
import { openChromium } from "../support/chromium.ts";
import { allWell, nothingConnected, onFire, oneWrong, paperAlerts, watched } from "./scenes.ts";
import { openStubDashboard } from "./stubDashboard.ts";
import type { StubState } from "./stubDashboard.ts";

type Size = { name: string; width: number; height: number; deviceScaleFactor: number };
type View = { name: string; address: string; prepare?: (page: Page) => Promise<void> };

const sizes: readonly Size[] = [
  { name: "phone", width: 390, height: 844, deviceScaleFactor: 2 },
  { name: "wide", width: 1280, height: 800, deviceScaleFactor: 1 },
];
const themes = ["light", "dark"] as const;
const scenes: Record<string, () => StubState> = {
  ...{ nothingConnected, allWell, watched, paperAlerts, oneWrong, onFire },
};

const views: readonly View[] = [
  { name: "today", address: "/" },
  { name: "booth-thistle", address: "/booths/thistle" },
  { name: "booth-sorrel", address: "/booths/sorrel" },
  { name: "booth-marigold", address: "/booths/marigold" },
  { name: "booth-juniper", address: "/booths/juniper" },
  { name: "booth-juniper-tried", address: "/booths/juniper", prepare: tryLater },
  { name: "run-sheet", address: "/run-sheet" },
  { name: "run-sheet-replay", address: "/run-sheet", prepare: openReplay },
  { name: "run-sheet-form", address: "/run-sheet", prepare: (page) => page.click("text=Add a booking") },
  { name: "set-up", address: "/set-up" },
];

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

/** Pages that look the same in every state. */
const outside: readonly View[] = [
  { name: "sign-in", address: "/sign-in" },
  { name: "first-run", address: "/first-run#code=K7QM-2D4X" },
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
      ...views.filter((view) => hasBooths || !(view.name.startsWith("booth-") || view.prepare !== undefined)),
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
  if (view.address.startsWith("/sign-in") || view.address.startsWith("/first-run")) {
    state.signedIn = null;
    state.isFirstRun = view.address.startsWith("/first-run");
  }
  const stub = await openStubDashboard(webDir, state);
  const context = await browser.newContext({
    viewport: { width: size.width, height: size.height },
    deviceScaleFactor: size.deviceScaleFactor,
    colorScheme: theme,
    reducedMotion: "reduce",
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
  await page.setViewportSize({ width: size.width, height: Math.max(size.height, tall) });
  await page.screenshot({ path });
  await context.close();
  await stub.close();
}
