import { expect, it, vi } from "vitest";
import { allWell } from "../../shots/scenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

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
