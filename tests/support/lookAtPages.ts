import axe from "axe-core";
import type { Browser, BrowserContextOptions, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openStubDashboard } from "../shots/stubDashboard.ts";
import type { StubDashboard, StubState } from "../shots/stubDashboard.ts";
import { builtPages } from "./aChromiumPage.ts";
import { sharedChromium } from "./chromium.ts";

/** A page in a state in which it is to be looked at. */
export type LookedAt = {
  name: string;
  makeState: () => StubState;
  address: string;
  /** A text by which the page is known to be there. */
  seen: string;
  /** What is opened on it before it is looked at. */
  prepare?: (page: Page) => Promise<void>;
};

type Opened = { stub: StubDashboard; page: Page; large: Page };

const phone: BrowserContextOptions = {
  viewport: { width: 390, height: 844 },
  locale: "en-GB",
  timezoneId: "Europe/Berlin",
  colorScheme: "light",
  reducedMotion: "reduce",
  serviceWorkers: "block",
};

/**
 * Tests that hold for every page in every state. One stub and two pages serve them all: opening a page anew for
 * each check takes longer than the checks.
 */
export function lookAtPages(states: readonly LookedAt[]): void {
  let opened: Opened | null = null;
  const wrong: string[] = [];
  const its = (): Opened => {
    if (opened === null) throw new Error("the pages are asked for before they are opened");
    return opened;
  };
  beforeAll(async () => {
    const [first] = states;
    if (first === undefined) throw new Error("no page to look at");
    const browser = await sharedChromium();
    const stub = await openStubDashboard(builtPages, first.makeState());
    const page = await (await browser.newContext(phone)).newPage();
    opened = { stub, page, large: await largeTextPage(browser) };
    page.on("pageerror", (error) => wrong.push(error.message));
    page.on("console", (line) => line.type() === "error" && wrong.push(line.text()));
    page.on("request", (request) => {
      const isOurs = request.url().startsWith(stub.origin) || request.url() === "about:blank";
      if (!isOurs) wrong.push(`another origin: ${request.url()}`);
    });
  });
  afterAll(async () => {
    await opened?.page.context().close();
    await opened?.large.context().close();
    await opened?.stub.close();
  });

  describe.each(states)("$name", (looked) => {
    beforeAll(async () => {
      wrong.length = 0;
      await its().page.setViewportSize({ width: 390, height: 844 });
      await show(its().page, its().stub, looked);
    });

    it("loads without an error or a forbidden thing", async () => {
      await its().page.waitForFunction(() => document.fonts.size === 3);
      // A socket refused for want of a sign-in is told to the console by the browser itself.
      expect(wrong.filter((line) => !line.includes("/live"))).toEqual([]);
    });

    it("gives a finger 48 px for all that is pressed", async () => {
      expect(await smallTargets(its().page)).toEqual([]);
    });

    it("has nothing that axe finds wrong, light and dark", async () => {
      const { page } = its();
      // Through the debugger, as the pages' own policy lets no foreign script in.
      await page.evaluate(axe.source);
      // All rules once; in the dark, the one that a theme has a part in.
      for (const colorScheme of ["light", "dark"] as const) {
        await page.emulateMedia({ colorScheme });
        await page.waitForFunction((is) => document.documentElement.dataset["theme"] === is, colorScheme);
        expect(
          await axeFindings(page, colorScheme === "light" ? {} : { runOnly: ["color-contrast"] }),
        ).toEqual([]);
      }
      await page.emulateMedia({ colorScheme: "light" });
    });

    it("keeps within a phone of 320 px", async () => {
      await its().page.setViewportSize({ width: 320, height: 700 });
      expect(await tooWide(its().page)).toEqual([]);
    });

    it("keeps within a phone of 320 px with text twice as large", async () => {
      const { large, stub } = its();
      await show(large, stub, looked);
      expect(await large.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe("32px");
      expect(await tooWide(large)).toEqual([]);
    });
  });
}

/** A page whose text is as large as a person's own setting makes it, before anything is laid out. */
async function largeTextPage(browser: Browser): Promise<Page> {
  const context = await browser.newContext({ ...phone, viewport: { width: 320, height: 700 } });
  const page = await context.newPage();
  await page.addInitScript(() => {
    new MutationObserver(() => document.documentElement?.style.setProperty("font-size", "200%")).observe(
      document,
      { childList: true },
    );
  });
  return page;
}

async function show(page: Page, stub: StubDashboard, looked: LookedAt): Promise<void> {
  // Away from the page before: an address that differs only behind its # would not be loaded anew.
  await page.goto("about:blank");
  Object.assign(stub.state, looked.makeState());
  await page.goto(stub.origin + looked.address);
  await page.getByText(looked.seen).first().waitFor();
  await looked.prepare?.(page);
}

async function axeFindings(page: Page, rules: axe.RunOptions): Promise<string[]> {
  return await page.evaluate(async (asked) => {
    const { violations } = await (window as unknown as { axe: typeof axe }).axe.run(document, asked);
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
  }, rules);
}

async function smallTargets(page: Page): Promise<string[]> {
  return await page.locator("button, .tabs a, summary, .bar a, input, select, .pick").evaluateAll((all) =>
    all
      .filter((each) => each.checkVisibility())
      .filter((each) => !(each instanceof HTMLInputElement && each.closest(".pick, .switch") !== null))
      .filter((each) => each.getBoundingClientRect().height < 48)
      .map((each) => `${each.tagName} ${each.textContent} ${each.getBoundingClientRect().height}`),
  );
}

/** What reaches over the right edge, once pictures are drawn to the width there is. */
async function tooWide(page: Page): Promise<string[]> {
  return await page.evaluate(async () => {
    await new Promise((drawn) => requestAnimationFrame(() => requestAnimationFrame(drawn)));
    const over = [...document.querySelectorAll("body *:not(.unseen)")]
      .filter((each) => each.getBoundingClientRect().right > 320.5)
      .map((each) => `${each.tagName} ${each.className.toString()} ${each.textContent}`);
    const { scrollWidth } = document.documentElement;
    return scrollWidth === 320 ? over : [...over, `the page is ${scrollWidth} px wide`];
  });
}
