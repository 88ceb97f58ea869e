import { expect, it, vi } from "vitest";
import { storied } from "../../shots/peopleScenes.ts";
import { allWell } from "../../shots/scenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

inChromium("alerts and people, for the owner", () => {
  const openPage = chromiumPages();

  it("shows who has an alert, who was told, what is silenced and why, and what is closed", async () => {
    const stub = await aStub(storied());
    const page = await openPage();
    await page.goto(stub.origin);
    await page.getByRole("link", { name: "Alerts" }).click();
    await page.getByRole("heading", { name: "Two alerts need somebody now." }).waitFor();
    await sees(page, "Ben Tansy is on it since 20:09.");
    await sees(page, "Asks again at 20:20.");
    await sees(page, "Over since 19:28; nobody took it.");
    await sees(page, "Ama Quill took it; over after 18 minutes.");
    const silenced = page.getByText("Silenced: the whole place is cut off");
    expect(await silenced.isVisible()).toBe(false);
    await page.getByText("Silenced (1)").click();
    expect(await silenced.isVisible()).toBe(true);
    const thistle = page
      .locator("section", { has: page.getByRole("link", { name: "Thistle", exact: true }) })
      .first();
    await thistle.getByText("Who said what, who was told").click();
    expect(await thistle.locator(".log li").allInnerTexts()).toHaveLength(4);
    await sees(page, "Ben Tansy, Chrome on Android is on it.");
  });

  it("are reached by the bar, which has the rarer pages behind one more on a phone", async () => {
    const stub = await aStub(storied());
    const page = await openPage();
    await page.goto(stub.origin);
    const bar = page.getByRole("navigation", { name: "Pages" });
    await bar.getByText("More", { exact: true }).waitFor();
    const shown = async () => (await bar.innerText()).split(/\s*\n\s*/).filter((word) => word !== "");
    expect(await shown()).toEqual(["Today", "Alerts 2", "Run sheet", "More"]);
    await bar.getByText("More", { exact: true }).click();
    await bar.getByRole("link", { name: "Set-up" }).click();
    await page.getByRole("heading", { name: "Set-up" }).waitFor();
    expect(await shown()).toEqual(["Today", "Alerts 2", "Run sheet", "More"]);
    await page.setViewportSize({ width: 1280, height: 800 });
    await bar.getByRole("link", { name: "Reports" }).waitFor();
    expect(await shown()).toEqual(["Today", "Alerts 2", "Run sheet", "Stock", "Reports", "Set-up"]);
  });

  it("takes an alert with one press, and says when a test came", async () => {
    const stub = await aStub(storied());
    const page = await openPage();
    await page.goto(`${stub.origin}/alerts`);
    const sorrel = page.locator("section.alert", { hasText: "too hot for its printer" }).first();
    await sorrel.getByRole("button", { name: "I’m on it" }).click();
    await sorrel.getByText("Yours since 20:10.").waitFor();
    await page.getByRole("button", { name: "Send me a test" }).click();
    await sees(page, /^Android phone: came after \d s\.$/);
  });

  it("lets an attendant in: a name, a booking, a link and its code, and takes it back", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/set-up`);
    await page.getByLabel("Name of the attendant").fill("Ben Tansy");
    await page.getByLabel(/Juniper, Fern and Rowan/).check();
    await page.getByRole("button", { name: "Make the link" }).click();
    await page.getByRole("img", { name: "The link as a code" }).waitFor();
    await sees(page, `${stub.origin}/join#pass=`);
    expect(stub.asked[0]).toMatchObject({
      ...{ address: "/api/passes", body: { name: "Ben Tansy", bookingIds: ["booking-juniper"] } },
    });
    await page.getByRole("button", { name: "Take back" }).click();
    await page.getByRole("button", { name: "Yes, take it back" }).click();
    await sees(page, "No link stands.");
  });

  it("sends what was chosen about notices, and shows what is refused at its field", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.goto(`${stub.origin}/set-up`);
    await page.getByText("Heat and damp").click();
    await page.getByLabel("Too hot for the printer").uncheck();
    await page.getByLabel("“Soon”").fill("20");
    await page.getByLabel("Call an address").check();
    await page.getByLabel("Address", { exact: true }).fill("ftp://elsewhere.example");
    const sentence = "ping.url: is no address of the web";
    stub.refuseNext({ error: "wrongField", sentence, field: "ping.url" });
    const notices = page.locator("section", {
      has: page.getByRole("heading", { name: "Notices", exact: true }),
    });
    await notices.getByRole("button", { name: "Save" }).click();
    await sees(page, "Is no address of the web");
    await page.getByLabel("Address", { exact: true }).fill("https://elsewhere.example/a");
    await notices.getByRole("button", { name: "Save" }).click();
    await sees(page, "Saved.");
    expect(stub.asked.at(-1)?.body).toEqual({
      ...{ escalateAfterMin: { actNow: 3, plan: 20 }, repeatAfterMin: 10, rulesOff: ["tooHot"], mail: null },
      ...{ ping: { url: "https://elsewhere.example/a", everyMin: 5 }, quietHours: null, units: "metric" },
    });
  });

  it("says that a phone cannot be reached where notices are forbidden, and allows them where it can", async () => {
    const stub = await aStub(allWell());
    const page = await openPage({ serviceWorkers: "allow" });
    await page.addInitScript(() => {
      // The browser's own push service is elsewhere; what is asked of it is seen here.
      PushManager.prototype.subscribe = function (options) {
        const asked = options?.applicationServerKey as Uint8Array;
        const keys = { p256dh: "p".repeat(87), auth: "a".repeat(22) };
        const toJSON = () => ({ endpoint: `https://push.example/${asked.length}`, keys });
        PushManager.prototype.getSubscription = () =>
          Promise.resolve({ toJSON } as unknown as PushSubscription);
        return Promise.resolve({ toJSON } as unknown as PushSubscription);
      };
    });
    await page.context().grantPermissions(["notifications"], { origin: stub.origin });
    await page.goto(`${stub.origin}/set-up`);
    await sees(page, "This device cannot be reached with the page closed.");
    await page.evaluate(async () => void (await navigator.serviceWorker.ready));
    await page.getByRole("button", { name: "Allow notices" }).click();
    await sees(page, "This device can be reached with the page closed.");
    await until(() => stub.asked.some(({ address }) => address === "/api/reaches"), "the device to be told");
    // An uncompressed point of P-256 has 65 bytes (RFC 8291 section 3.1).
    const reach = stub.asked.find(({ address }) => address === "/api/reaches");
    expect(reach?.body).toMatchObject({ way: "push", body: { endpoint: "https://push.example/65" } });
  });
});
