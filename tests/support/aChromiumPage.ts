import { existsSync } from "node:fs";
import { resolve } from "node:path";
import type { BrowserContextOptions, Page } from "playwright-core";
import { beforeAll, onTestFinished } from "vitest";
import { sharedChromium } from "./chromium.ts";

/** The built pages, as `npm run build` leaves them. */
export const builtPages = resolve(import.meta.dirname, "../../dashboard/dist/web");

/** For the tests of a `describe`: opens a page of a phone, 390 by 844, that is closed with its test. */
export function chromiumPages(): (over?: BrowserContextOptions) => Promise<Page> {
  beforeAll(() => {
    if (!existsSync(builtPages))
      throw new Error(`the pages are not built: npm run build makes ${builtPages}`);
  });
  return async (over = {}) => {
    const browser = await sharedChromium();
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
