import { existsSync } from "node:fs";
import { resolve } from "node:path";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, onTestFinished } from "vitest";
import { openChromium } from "./chromium.ts";

/** The built pages, as `npm run build` leaves them. */
export const builtPages = resolve(import.meta.dirname, "../../dashboard/dist/web");

/**
 * One Chromium for all tests of a `describe`. The answer opens a page of a phone, 390 by 844, that is closed
 * with its test.
 */
export function chromiumPages(): (over?: BrowserContextOptions) => Promise<Page> {
  let browser: Browser | null = null;
  beforeAll(async () => {
    if (!existsSync(builtPages))
      throw new Error(`the pages are not built: npm run build makes ${builtPages}`);
    browser = await openChromium();
  });
  afterAll(() => browser?.close());
  return async (over = {}) => {
    if (browser === null) throw new Error("there is no Chromium: apt-get install chromium");
    const context = await browser.newContext({
      viewport: { width: 390, height: 844 },
      locale: "en-GB",
      timezoneId: "Europe/Berlin",
      colorScheme: "light",
      // Fetching all pages' files for each test takes longer than most tests; the worker has tests of its own.
      serviceWorkers: "block",
      ...over,
    });
    onTestFinished(() => context.close());
    const page = await context.newPage();
    page.setDefaultTimeout(40_000);
    return page;
  };
}
