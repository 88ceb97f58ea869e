import type { BoothView } from "@boothward/shared-types/view";
import type { Page } from "playwright-core";
import { expect, it, vi } from "vitest";
import { attending } from "../../shots/peopleScenes.ts";
import { allWell, oneWrong } from "../../shots/scenes.ts";
import type { StubDashboard } from "../../shots/stubDashboard.ts";
import { anAlertView } from "../../support/aBoothView.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

const button = (page: Page, name: string) => page.getByRole("button", { name, exact: true });
const saidTo = (stub: StubDashboard) => stub.asked.filter(({ address }) => address.endsWith("/say"));

function boothOf(stub: StubDashboard, boothId: string): BoothView {
  const booth = stub.state.booths.find((each) => each.boothId === boothId);
  if (booth === undefined) throw new Error(`the scene has no ${boothId}`);
  return booth;
}

inChromium("the attendant's page", () => {
  const openPage = chromiumPages();

  it("has its three buttons within a thumb's reach, Done the largest and the last", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/thistle/attend`);
    await button(page, "Done").waitFor();
    const boxes = await Promise.all(
      ["I’m on it", "Later", "Done"].map((name) => button(page, name).boundingBox()),
    );
    const [take, later, done] = boxes.map((box) => box ?? { x: 0, y: 0, width: 0, height: 0 });
    if (take === undefined || later === undefined || done === undefined) throw new Error("three buttons");
    for (const { y, height } of [take, later, done]) {
      expect(y).toBeGreaterThanOrEqual(844 / 2);
      expect(y + height).toBeLessThanOrEqual(844);
    }
    expect(take.height).toBeGreaterThanOrEqual(64);
    expect(done.height).toBeGreaterThanOrEqual(76);
    expect(done.width * done.height).toBeGreaterThan(take.width * take.height);
    expect(done.y).toBeGreaterThanOrEqual(take.y + take.height);
    expect(await page.getByRole("navigation").count()).toBe(0);
  });

  it("keeps I'm on it pressed and says since when; a second press says nothing more", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/thistle/attend`);
    await button(page, "I’m on it").click();
    await sees(page, /^Yours since 21:06\.$/);
    // It says of itself that it is disabled; a finger lands on it all the same.
    await button(page, "I’m on it").click({ force: true });
    await button(page, "Later").click();
    await sees(page, "Asks again at 21:16.");
    expect(saidTo(stub).map(({ body }) => (body as { answer: string }).answer)).toEqual(["take", "later"]);
    expect(await button(page, "I’m on it").getAttribute("aria-pressed")).toBe("true");
  });

  it("waits after Done until a new roll is seen, and then says thank you", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/thistle/attend`);
    await button(page, "Done").click();
    await sees(page, "Waiting to see it.");
    const thistle = boothOf(stub, "thistle");
    if (thistle.media === null) throw new Error("Thistle has paper");
    const media = { ...thistle.media, sheetsLeft: 300 };
    const { nowMs } = stub.state;
    stub.send({ kind: "booth", nowMs, booth: { ...thistle, health: "fine", alerts: [], media } });
    await sees(page, "Thank you. Seen: 300 sheets.");
    await sees(page, "Nothing to do.");
  });

  it("keeps a press without a network on the phone, and sends it once when a new page is opened", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/thistle/attend`);
    await button(page, "Done").waitFor();
    stub.cutPages();
    await button(page, "I’m on it").click();
    await sees(page, "Kept, sends when the booth is reached.");
    const kept = await page.evaluate(() => localStorage.getItem("answers"));
    const [press] = JSON.parse(kept ?? "[]") as { sayId: string }[];
    await page.close();
    stub.letIn();
    const next = await page.context().newPage();
    // Today, not the attendant's page: what waits is sent from wherever the person is.
    await next.goto(stub.origin);
    const keptNow = () => next.evaluate(() => localStorage.getItem("answers"));
    await until(async () => (await keptNow()) === null, "the press to be sent");
    await next.goto(`${stub.origin}/booths/thistle/attend`);
    await sees(next, "Yours since");
    expect(saidTo(stub).map(({ body }) => (body as { sayId: string }).sayId)).toEqual([press?.sayId]);
    expect(stub.state.sayIds).toHaveLength(1);
  });

  it("never shows old figures as live while the dashboard is out of reach", async () => {
    const stub = await aStub(oneWrong());
    const page = await openPage();
    await page.goto(`${stub.origin}/booths/juniper/attend`);
    await sees(page, "Nothing to do.");
    await page.clock.install();
    stub.cutPages();
    await page.clock.fastForward(60_000);
    await page.getByRole("heading", { name: /^No word from the dashboard/ }).waitFor();
    expect(await page.getByText("Nothing to do.").count()).toBe(0);
    expect(await page.locator(".below > .old").count()).toBe(6);
  });

  it("is what an attendant sees first, with the booths of the pass to choose from", async () => {
    const stub = await aStub({ ...attending(), signedIn: null });
    const page = await openPage();
    await page.goto(`${stub.origin}/join#pass=4f7Kq2`);
    await page.getByRole("heading", { name: "You are Ben Tansy at Juniper and Thistle." }).waitFor();
    expect(page.url()).toBe(`${stub.origin}/join`);
    expect(stub.asked[0]).toMatchObject({ address: "/api/join", body: { token: "4f7Kq2" } });
    await page.getByRole("link", { name: "Show my booth" }).click();
    await button(page, "Done").waitFor();
    // Thistle needs somebody now and is shown first; a tap shows the other.
    expect(await page.getByRole("button", { name: /Thistle/ }).getAttribute("aria-pressed")).toBe("true");
    await page.getByRole("button", { name: /Juniper/ }).click();
    await sees(page, "Asks again at");
    expect(await page.getByRole("navigation").count()).toBe(0);
  });

  it("says plainly what is wrong with a pass, and whom to ask", async () => {
    const stub = await aStub({ ...attending(), signedIn: null });
    const page = await openPage();
    stub.refuseNext({ error: "endedPass", sentence: "This link ended with its event.", field: null });
    await page.goto(`${stub.origin}/join#pass=4f7Kq2`);
    await page.getByRole("heading", { name: "This link ended with its event." }).waitFor();
    await sees(page, "Ask the owner, who made the link, for a new one.");
  });

  it("buzzes and rings once for each thing that becomes now, also after a reload", async () => {
    const stub = await aStub(allWell());
    const page = await openPage();
    await page.addInitScript(() => {
      navigator.vibrate = () => {
        document.documentElement.dataset["buzzes"] = String(
          Number(document.documentElement.dataset["buzzes"] ?? 0) + 1,
        );
        return true;
      };
    });
    await page.goto(`${stub.origin}/booths/juniper/attend`);
    await button(page, "Turn sound on").click();
    await sees(page, "Sound is on");
    const booth = { ...boothOf(stub, "juniper"), alerts: [anAlertView({ sinceAtMs: stub.state.nowMs })] };
    const tell = (nowMs: number) => stub.send({ kind: "booth", nowMs, booth });
    const buzzes = () => page.evaluate(() => document.documentElement.dataset["buzzes"]);
    tell(stub.state.nowMs);
    await button(page, "Done").waitFor();
    await until(async () => (await buzzes()) === "1", "the buzz");
    tell(stub.state.nowMs + 1000);
    stub.state.booths = stub.state.booths.map((each) => (each.boothId === "juniper" ? booth : each));
    await page.reload();
    await button(page, "Turn sound on").click();
    await sees(page, "Sound is on");
    await button(page, "Done").waitFor();
    expect(await buzzes()).toBeUndefined();
  });
});
