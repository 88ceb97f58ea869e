import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import { allWell } from "../../shots/scenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { pushToWorker } from "../../support/pushToWorker.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

/** Until the worker has all files and answers for this page. */
const isInCharge = (page: Page) =>
  page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");

/** The state is kept by the page's clock, each quarter of a minute, with the line open all the while. */
async function keepsState(page: Page): Promise<void> {
  await page.clock.fastForward(15_000);
  await page.waitForFunction(() => localStorage.getItem("lastFrame") !== null, null, { timeout: 10_000 });
}

const cacheNames = (page: Page) => page.evaluate(() => caches.keys());

inChromium("the pages without a network", () => {
  const openPage = chromiumPages();

  it("open all the same, and show the last known state as old, with its age", async () => {
    const stub = await aStub(allWell());
    const page = await openPage({ serviceWorkers: "allow" });
    await page.clock.install();
    await page.goto(stub.origin);
    await sees(page, "All four will make it to close.");
    await isInCharge(page);
    await keepsState(page);
    stub.cutPages();
    await page.reload();
    await page.getByRole("heading", { name: /^No word from the dashboard for/ }).waitFor();
    await sees(page, /What you see is .* old/);
    expect(await page.locator(".booth").count()).toBe(4);
    expect(await page.locator(".booth.unknown").count()).toBe(4);
    await sees(page, "Before that: All four will make it to close.");
    // Other pages open too, from files that were never asked for before.
    await page.goto(`${stub.origin}/booths/juniper/attend`);
    await page.getByRole("heading", { name: /^No word from the dashboard for/ }).waitFor();
    stub.letIn();
    await sees(page, "Nothing to do.");
  });

  // Source: Chrome DevTools Protocol, Page.getInstallabilityErrors: what keeps a browser from offering to install.
  it("can be installed", async () => {
    const stub = await aStub(allWell());
    const page = await openPage({ serviceWorkers: "allow" });
    await page.goto(stub.origin);
    await isInCharge(page);
    const debug = await page.context().newCDPSession(page);
    const { errors, url } = await debug.send("Page.getAppManifest");
    expect([url, errors]).toEqual([`${stub.origin}/manifest.webmanifest`, []]);
    const { installabilityErrors } = await debug.send("Page.getInstallabilityErrors");
    // A test's context is a private one, in which nothing can be installed.
    expect(installabilityErrors.filter(({ errorId }) => errorId !== "in-incognito")).toEqual([]);
  });

  it("forget the last state with a sign-out", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.clock.install();
    await page.goto(`${stub.origin}/set-up`);
    await page.getByRole("button", { name: "Sign out" }).waitFor();
    await keepsState(page);
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.getByRole("heading", { name: "Sign in" }).waitFor();
    expect(await page.evaluate(() => localStorage.getItem("lastFrame"))).toBeNull();
  });

  it("let a new build wait until the last page of the old one is closed, which keeps its files", async () => {
    const stub = await aStub(allWell());
    const page = await openPage({ serviceWorkers: "allow" });
    await page.goto(stub.origin);
    await isInCharge(page);
    const [old = ""] = await cacheNames(page);
    const alerts = await page.evaluate(async (name) => {
      const files = await (await caches.open(name)).keys();
      return files.map(({ url }) => new URL(url).pathname).find((path) => path.includes("/Alerts-")) ?? "";
    }, old);
    stub.replaceFile("/sw.js", (text) => text.replaceAll(old, "pages-next").replaceAll(`"${alerts}",`, ""));
    stub.replaceFile(alerts, () => null);
    await page.evaluate(async () => void (await (await navigator.serviceWorker.ready).update()));
    await page.waitForFunction(async () => (await navigator.serviceWorker.ready).waiting !== null);
    expect((await cacheNames(page)).sort()).toEqual([old, "pages-next"].sort());
    // The old page still opens what the new build no longer has.
    await page.getByRole("link", { name: "Alerts" }).click();
    await page.getByRole("heading", { name: "Nothing is open." }).waitFor();
    const context = page.context();
    await page.close();
    const next = await context.newPage();
    await next.goto(stub.origin);
    await next.waitForFunction(async () => (await caches.keys()).join() === "pages-next");
  });

  it("show a notice with the page closed, and tell the dashboard that it came", async () => {
    const stub = await aStub(allWell());
    const page = await openPage({ serviceWorkers: "allow" });
    const context = page.context();
    await context.grantPermissions(["notifications"], { origin: stub.origin });
    await page.goto(stub.origin);
    await isInCharge(page);
    await page.close();
    const message = {
      ...{
        noticeId: "n",
        deliveryId: "d",
        secret: "s",
        alertId: "a",
        boothId: "thistle",
        severity: "actNow",
      },
      ...{
        title: "Now",
        body: "Thistle has no paper left: fit the spare roll now.",
        path: "/booths/thistle",
      },
    };
    await pushToWorker(context, stub.origin, JSON.stringify(message));
    await until(
      () => stub.asked.some(({ address }) => address === "/api/arrivals"),
      "the arrival to be told",
    );
    expect(stub.asked.at(-1)?.body).toEqual({ deliveryId: "d", secret: "s" });
    // One alert has one notice, and what cannot be read is still shown.
    await pushToWorker(
      context,
      stub.origin,
      JSON.stringify({ ...message, body: "Thistle still has no paper." }),
    );
    await pushToWorker(context, stub.origin, "not JSON");
    const next = await context.newPage();
    await next.goto(stub.origin);
    const shown = () =>
      next.evaluate(async () => {
        const all = await (await navigator.serviceWorker.ready).getNotifications();
        return all.map(({ title, body, tag, requireInteraction }) => ({
          title,
          body,
          tag,
          requireInteraction,
        }));
      });
    await until(async () => (await shown()).length === 2, "two notices");
    expect(await shown()).toEqual(
      expect.arrayContaining([
        { title: "Now", body: "Thistle still has no paper.", tag: "a", requireInteraction: true },
        expect.objectContaining({ title: "Boothward", requireInteraction: false }),
      ]),
    );
  });
});
