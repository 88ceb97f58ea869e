import { networkInterfaces } from "node:os";
import type { Page } from "playwright-core";
import { describe, expect, it, onTestFinished, vi } from "vitest";
import { aDashboard } from "../../support/aDashboard.ts";
import { aForwardedPort } from "../../support/aForwardedPort.ts";
import { anAuthority, keyHash } from "../../support/anAuthority.ts";
import { sees } from "../../support/aStub.ts";
import { aTlsProxy } from "../../support/aTlsProxy.ts";
import { builtPages } from "../../support/aChromiumPage.ts";
import { openChromium } from "../../support/chromium.ts";
import { freePort } from "../../support/freePort.ts";
import { findTool } from "../../support/findTool.ts";
import { needsTool } from "../../support/needsTool.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const inChromium = needsTool(
  ["chromium", "chromium-browser"],
  "apt-get install chromium openssl",
  () => findTool("openssl") !== null,
);

/** A page of a phone, in a browser that takes booths.example for this computer and may trust a certificate. */
async function aPhone(certFile: string | null): Promise<Page> {
  const browser = await openChromium([
    "--host-resolver-rules=MAP booths.example 127.0.0.1",
    ...(certFile === null ? [] : [`--ignore-certificate-errors-spki-list=${keyHash(certFile)}`]),
  ]);
  if (browser === null) throw new Error("there is no Chromium: apt-get install chromium");
  onTestFinished(() => browser.close());
  const context = await browser.newContext({ viewport: { width: 390, height: 844 }, locale: "en-GB" });
  const page = await context.newPage();
  page.setDefaultTimeout(40_000);
  return page;
}

/** Makes the owner's account, and shows what this address can do: each ability with yes, no or not known. */
async function abilitiesAt(page: Page, origin: string, firstRunUrl: string | null): Promise<string[]> {
  await page.goto(`${origin}/first-run#${firstRunUrl?.split("#")[1] ?? ""}`);
  await page.getByLabel("Name").fill("Ama");
  await page.getByLabel("Password", { exact: true }).fill("a long evening of prints");
  await page.getByRole("button", { name: "Make it mine" }).click();
  // Said once the live socket is open and has told that there is no booth.
  await sees(page, "No booth is connected yet.");
  await page.goto(`${origin}/set-up`);
  const sheet = page.locator("section", { hasText: `You are at ${origin}.` });
  await sheet.locator(".abilities").waitFor();
  return await sheet
    .locator(".abilities li > div")
    .evaluateAll((all) =>
      all.map((each) =>
        [each.querySelector("b"), each.querySelector(".is")].map((part) => part?.textContent).join(": "),
      ),
    );
}

const workerTakesCharge = (page: Page) =>
  page.waitForFunction(() => navigator.serviceWorker.controller?.state === "activated");

/** An address of this computer that others in its network would use. */
const networkAddress = Object.values(networkInterfaces())
  .flatMap((all) => all ?? [])
  .find(({ family, internal }) => family === "IPv4" && !internal)?.address;

inChromium("the homes of the dashboard", () => {
  describe.skipIf(networkAddress === undefined)("a computer in the venue's network, without TLS", () => {
    it("shows the pages, and says that no notice comes with the page closed and why", async () => {
      const { url, firstRunUrl } = await aDashboard({ host: "0.0.0.0", pagesDir: builtPages });
      const origin = `http://${networkAddress ?? ""}:${new URL(url).port}`;
      const page = await aPhone(null);
      expect(await abilitiesAt(page, origin, firstRunUrl)).toEqual([
        "Secure connection: No",
        "Notices to phones: No",
        "Reports and pages from outside: No",
      ]);
      await sees(page, "Not at this address: browsers want https for it.");
      expect(await page.evaluate(() => window.isSecureContext)).toBe(false);
      expect(await page.getByRole("button", { name: "Allow notices" }).count()).toBe(0);
    });
  });

  it("a server with its own certificate, or a forwarded port to a computer at home", async () => {
    const files = anAuthority().issue(["DNS:booths.example"]);
    let inner = 0;
    const origin = `https://booths.example:${await aForwardedPort(() => inner)}`;
    const { url, firstRunUrl } = await aDashboard({ origin, tls: files, pagesDir: builtPages });
    inner = Number(new URL(url).port);
    const page = await aPhone(files.certFile);
    expect(await abilitiesAt(page, origin, firstRunUrl)).toEqual([
      "Secure connection: Yes",
      "Notices to phones: Yes",
      "Reports and pages from outside: Not known",
    ]);
    await workerTakesCharge(page);
    await sees(page, "They are possible here; allow them below.");
    const stranger = await aPhone(null);
    await expect(stranger.goto(origin)).rejects.toThrow("ERR_CERT_AUTHORITY_INVALID");
  });

  it("a server behind a proxy that keeps the certificate", async () => {
    const files = anAuthority().issue(["DNS:booths.example"]);
    const port = await freePort();
    const origin = `https://booths.example:${port}`;
    const { url, firstRunUrl } = await aDashboard({ origin, pagesDir: builtPages });
    await aTlsProxy(port, files, url, "11.22.33.44");
    const page = await aPhone(files.certFile);
    expect(await abilitiesAt(page, origin, firstRunUrl)).toEqual([
      "Secure connection: Yes",
      "Notices to phones: Yes",
      "Reports and pages from outside: Yes",
    ]);
    await workerTakesCharge(page);
    const [cookie] = await page.context().cookies();
    expect(cookie).toMatchObject({ secure: true, httpOnly: true, sameSite: "Strict" });
  });
});
