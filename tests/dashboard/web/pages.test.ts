import AxeBuilder from "axe-core";
import type { Page } from "playwright-core";
import { expect, it, onTestFinished, vi } from "vitest";
import { aBoothView, anAlertView } from "../../support/aBoothView.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";
import { allWell, nothingConnected, onFire, oneWrong } from "../../shots/scenes.ts";
import { openStubDashboard } from "../../shots/stubDashboard.ts";
import type { StubState } from "../../shots/stubDashboard.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

async function aStub(state: StubState) {
  const stub = await openStubDashboard(builtPages, state);
  onTestFinished(() => stub.close());
  return stub;
}

const headline = (page: Page) => page.locator("h1").innerText();
const sees = (page: Page, text: string) => page.getByText(text).first().waitFor();

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
    expect(await marigold.locator(".left").innerText()).toMatch(/^about\s\d+\s+left$/);
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

inChromium("the page of one booth in Chromium", () => {
  const openPage = chromiumPages();

  it("shows what to do, the evening, two charts with their tables, and the facts", async () => {
    const stub = await aStub(onFire());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/sorrel`);
    await sees(page, "Put the awning out and open the doors on the shady side.");
    await page.locator("canvas").nth(1).waitFor();
    const labels = await page.locator('[role="img"]').evaluateAll((all) => all.map((each) => each.ariaLabel));
    expect(labels.join(" ")).toContain("Sessions per quarter-hour");
    expect(labels.join(" ")).toContain("over the limit of 40\u00a0°C");
    expect(await page.getByText("The same as a table").count()).toBe(3);
    await page.getByText("The same as a table").first().click();
    expect(await page.locator("table").first().locator("tr").count()).toBeGreaterThan(8);
    const facts = await page.locator(".facts").innerText();
    expect(facts).toMatch(/folder D:\/layouts\s+is not there/);
    expect(facts).toMatch(/Kept aside\s+2 items could not be read/);
  });

  it("draws the charts in ink, not on an empty canvas", async () => {
    const stub = await aStub(onFire());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/sorrel`);
    const inked = () =>
      page.locator("canvas").evaluateAll((all) =>
        all.map((each) => {
          const canvas = each as HTMLCanvasElement;
          const { data } = canvas.getContext("2d")!.getImageData(0, 0, canvas.width, canvas.height);
          return data.filter((_, i) => i % 4 === 3).some((alpha) => alpha > 0);
        }),
      );
    await until(async () => (await inked()).join() === "true,true", "both charts to be drawn");
  });

  it("says of an address without a booth that it is not known", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/nobody`);
    await sees(page, "This booth is not known here.");
  });
});

inChromium("forms in Chromium", () => {
  const openPage = chromiumPages();

  it("show what the dashboard refuses at the field it is about", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/run-sheet`);
    await page.getByRole("button", { name: "Add a booking" }).click();
    await page.getByLabel("Client").fill("Brook Library");
    await page.getByLabel("Kind of event").fill("reading night");
    await page.getByLabel("Opens").fill("20:00");
    await page.getByLabel("Closes").fill("01:30");
    const sentence = "This booth is at Fern and Rowan for part of these hours.";
    stub.refuseNext({ error: "overlaps", sentence, field: "openAtMs" });
    await page.getByRole("button", { name: "Save" }).click();
    await sees(page, sentence);
    const opens = page.getByLabel("Opens");
    expect(await opens.getAttribute("aria-invalid")).toBe("true");
    expect(await opens.evaluate((input) => input === document.activeElement)).toBe(true);
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByRole("heading", { name: "Juniper · Brook Library" }).waitFor();
    const sent = stub.asked.at(-1)?.body as { openAtMs: number; closeAtMs: number; zone: string };
    expect(sent.zone).toBe("Europe/Berlin");
    expect(sent.closeAtMs - sent.openAtMs).toBe(5.5 * 3_600_000);
  });

  it("unpair a computer with the second tap only", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/set-up`);
    const juniper = page.locator("section", { has: page.getByRole("heading", { name: "Juniper" }) });
    await juniper.getByRole("button", { name: "Unpair" }).click();
    await sees(page, "Unpair juniper-tablet from Juniper?");
    expect(stub.asked).toEqual([]);
    await juniper.getByRole("button", { name: "Keep it" }).click();
    await juniper.getByRole("button", { name: "Unpair" }).click();
    await juniper.getByRole("button", { name: "Yes, unpair it" }).click();
    await until(() => stub.asked.length === 1, "the unpairing to be asked");
    expect(stub.asked[0]?.address).toBe("/api/agents/agent-juniper/revoke");
  });

  it("take the one-time code and token out of the address, and into one call", async () => {
    const stub = await aStub({ ...allWell(), signedIn: null, isFirstRun: true });
    const page = await openPage();
    await page.goto(`${stub.origin}/first-run#code=K7QM2D4X`);
    await page.getByLabel("Name").fill("Ama");
    expect(page.url()).toBe(`${stub.origin}/first-run`);
    await page.getByLabel("Password", { exact: true }).fill("a long evening of prints");
    await page.getByRole("button", { name: "Make it mine" }).click();
    await sees(page, "All four will make it to close.");
    expect(stub.asked[0]?.body).toMatchObject({ code: "K7QM2D4X", name: "Ama" });

    const other = await openPage();
    stub.state.signedIn = null;
    await other.goto(`${stub.origin}/sign-in#once=4f7Kq2`);
    await sees(other, "All four will make it to close.");
    expect(stub.asked[1]).toMatchObject({ address: "/api/sign-in-once", body: { token: "4f7Kq2" } });
    expect(other.url()).toBe(`${stub.origin}/`);
  });

  it("keep a theme that a person chose, also after a reload", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/set-up`);
    await page.getByLabel("Dark", { exact: true }).check();
    const theme = () => page.evaluate(() => document.documentElement.dataset["theme"]);
    expect(await theme()).toBe("dark");
    await page.reload();
    await page.getByRole("heading", { name: "This device" }).waitFor();
    expect(await theme()).toBe("dark");
  });

  it("lead who is not signed in to the sign-in", async () => {
    const stub = await aStub({ ...allWell(), signedIn: null });
    const page = await openPage();
    await page.goto(`${stub.origin}/run-sheet`);
    await page.getByRole("heading", { name: "Sign in" }).waitFor();
    expect(page.url()).toBe(`${stub.origin}/sign-in`);
  });
});

const manyAlerts = (): StubState => {
  const state = onFire();
  const [first] = state.booths;
  if (first === undefined) throw new Error("the scenes have four booths");
  const note = anAlertView({ alertId: "note", boothId: first.boothId, severity: "note", matter: "tooHot" });
  const unknown = aBoothView({
    boothId: "fern",
    name: "Fern",
    booking: null,
    health: "unknown",
    media: null,
  });
  return {
    ...state,
    booths: [{ ...first, alerts: [...first.alerts, note] }, ...state.booths.slice(1), unknown],
  };
};

inChromium("every page in Chromium", () => {
  const openPage = chromiumPages();

  const pages: [string, () => StubState, string, string][] = [
    ["Today, all well", allWell, "/", "All four"],
    ["Today, everything on fire", manyAlerts, "/", "booths need somebody now"],
    ["Today, nothing connected", nothingConnected, "/", "Pair the first booth"],
    ["Booth, with a stop", onFire, "/booths/thistle", "Facts"],
    ["Booth, silent", onFire, "/booths/marigold", "Facts"],
    ["Booth, several alerts", manyAlerts, "/booths/juniper", "Facts"],
    ["Run sheet", allWell, "/run-sheet", "on the run sheet"],
    ["Set-up", allWell, "/set-up", "This device"],
    ["Sign in", () => ({ ...allWell(), signedIn: null }), "/sign-in", "Password"],
    [
      "First run",
      () => ({ ...allWell(), signedIn: null, isFirstRun: true }),
      "/first-run#code=K7QM",
      "Password",
    ],
  ];

  it.each(pages)("has nothing that axe finds wrong: %s", async (_, makeState, address, seen) => {
    const stub = await aStub(makeState());
    for (const colorScheme of ["light", "dark"] as const) {
      // The checker is put in from outside, which the pages' own policy would forbid.
      const page = await openPage({ colorScheme, bypassCSP: true, reducedMotion: "reduce" });
      await page.goto(stub.origin + address);
      await sees(page, seen);
      if (address === "/run-sheet") await page.getByRole("button", { name: "Add a booking" }).click();
      if (address === "/set-up")
        await page.getByRole("button", { name: "Pair another computer" }).first().click();
      expect(await page.evaluate(() => document.documentElement.dataset["theme"])).toBe(colorScheme);
      expect(await axeFindings(page)).toEqual([]);
    }
  });

  it.each(pages)(
    "keeps within a phone of 320 px, also with text twice as large: %s",
    async (_, makeState, address, seen) => {
      const stub = await aStub(makeState());
      for (const text of ["100%", "200%"]) {
        const page = await openPage({ viewport: { width: 320, height: 700 } });
        // As large as a person's own setting makes it, before the page is laid out.
        await page.addInitScript((size) => {
          new MutationObserver(() => document.documentElement?.style.setProperty("font-size", size)).observe(
            document,
            { childList: true },
          );
        }, text);
        await page.goto(stub.origin + address);
        await sees(page, seen);
        expect(await page.evaluate(() => getComputedStyle(document.documentElement).fontSize)).toBe(
          text === "100%" ? "16px" : "32px",
        );
        const over = await page.evaluate(() =>
          [...document.querySelectorAll("body *:not(.unseen)")]
            .filter((each) => each.getBoundingClientRect().right > window.innerWidth + 0.5)
            .map((each) => `${each.tagName} ${each.className.toString()} ${each.textContent}`),
        );
        expect(over).toEqual([]);
        expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(320);
      }
    },
  );

  it.each(pages)("loads without an error or a forbidden thing: %s", async (_, makeState, address, seen) => {
    const stub = await aStub(makeState());
    const page = await openPage();
    const wrong: string[] = [];
    page.on("pageerror", (error) => wrong.push(error.message));
    page.on("console", (line) => line.type() === "error" && wrong.push(line.text()));
    page.on("request", (request) => {
      if (!request.url().startsWith(stub.origin)) wrong.push(`another origin: ${request.url()}`);
    });
    await page.goto(stub.origin + address);
    await sees(page, seen);
    await page.waitForFunction(() => document.fonts.size === 3);
    // A socket refused for want of a sign-in is told to the console by the browser itself.
    expect(wrong.filter((line) => !line.includes("/live"))).toEqual([]);
  });

  it.each(pages)("gives a finger 48 px for all that is pressed: %s", async (_, makeState, address, seen) => {
    const stub = await aStub(makeState());
    const page = await openPage();
    await page.goto(stub.origin + address);
    await sees(page, seen);
    const small = await page
      .locator("button, .tabs a, summary, .bar a, input, select, .pick")
      .evaluateAll((all) =>
        all
          .filter((each) => !(each instanceof HTMLInputElement && each.closest(".pick") !== null))
          .filter((each) => each.getBoundingClientRect().height < 48)
          .map((each) => `${each.tagName} ${each.textContent} ${each.getBoundingClientRect().height}`),
      );
    expect(small).toEqual([]);
  });
});

async function axeFindings(page: Page): Promise<string[]> {
  await page.addScriptTag({ content: AxeBuilder.source });
  return await page.evaluate(async () => {
    const axe = (window as unknown as { axe: typeof AxeBuilder }).axe;
    const { violations } = await axe.run(document);
    return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" | ")}`);
  });
}
