import type { Page } from "playwright-core";
import { describe, expect, it, vi } from "vitest";
import { findRows, monthsIn } from "../../../dashboard/web/report/findRows.ts";
import { reportRowOf } from "../../../dashboard/reports/seasonTotals.ts";
import { afterEvents, afterSilence } from "../../shots/reportScenes.ts";
import { nothingConnected } from "../../shots/scenes.ts";
import { builtPages, chromiumPages } from "../../support/aChromiumPage.ts";
import { anOwner, owner } from "../../support/aDashboard.ts";
import { aReport } from "../../support/aReport.ts";
import { aReportedEvening } from "../../support/aReportedEvening.ts";
import { sixAtMs } from "../../support/aStoredItem.ts";
import { sees } from "../../support/aStub.ts";
import { lookAtPages } from "../../support/lookAtPages.ts";
import { needsTool } from "../../support/needsTool.ts";
import { theDayAfter } from "../../support/theDayAfter.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000, hookTimeout: 120_000 });

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

describe("the history", () => {
  const row = reportRowOf(aReport());
  const other = { ...row, bookingId: "other", client: "Łukasz and Zoë", place: "Mill", eventKind: "gala" };
  const found = (text: string, month: string | null = null) =>
    findRows([row, other], { text, month }).map(({ bookingId }) => bookingId);

  it("is searched by every word, whatever the marks on its letters", () => {
    expect(found("")).toEqual([row.bookingId, "other"]);
    expect(found("lukasz zoe")).toEqual(["other"]);
    expect(found("JUNIPER gala")).toEqual(["other"]);
    expect(found("lukasz wedding")).toEqual([]);
  });

  it("is narrowed to a month of the venue's calendar", () => {
    // 23:30 UTC on 31 May is June in Berlin (tz database: UTC+2 in summer).
    const late = {
      ...row,
      bookingId: "late",
      zone: "Europe/Berlin",
      openAtMs: Date.UTC(2026, 4, 31, 23, 30),
    };
    expect(monthsIn([{ ...late, zone: "UTC" }, late])).toEqual(["2026-06", "2026-05"]);
    expect(findRows([late], { text: "", month: "2026-05" })).toEqual([]);
  });
});

async function compareTwo(page: Page): Promise<void> {
  for (const box of (await page.getByRole("checkbox").all()).slice(0, 2)) await box.check();
  await sees(page, "Side by side");
}

inChromium("pages about what was", () => {
  lookAtPages([
    {
      ...{ name: "Reports, none", makeState: nothingConnected, address: "/reports" },
      seen: "No evening is over yet.",
    },
    {
      ...{ name: "Reports, two compared", makeState: afterEvents, address: "/reports" },
      ...{ seen: "9 evenings with", prepare: compareTwo },
    },
    {
      ...{ name: "a report", makeState: afterEvents, address: "/reports/evening" },
      seen: "What was corrected",
    },
    {
      ...{ name: "a report of silence", makeState: afterSilence, address: "/reports/evening" },
      seen: "Nothing was counted at this booth.",
    },
    {
      ...{ name: "a client's report", makeState: afterEvents, address: "/r/evening" },
      seen: "Print or save",
    },
  ]);
});

/** A dashboard the day after an evening, with its owner. */
async function withReport() {
  const evening = aReportedEvening(4, { openAtMs: sixAtMs });
  const dashboard = await theDayAfter(evening, { pagesDir: builtPages });
  await anOwner(dashboard);
  return { dashboard, sessions: evening.truth.sessions.length };
}

inChromium("a report on a real dashboard", () => {
  const open = chromiumPages();

  it("is found, corrected, given to a client by a link, and taken back again", async () => {
    const { dashboard, sessions } = await withReport();
    const page = await open();
    await page.goto(`${dashboard.url}/sign-in`);
    await page.getByLabel("Name", { exact: true }).fill(owner.name);
    await page.getByLabel("Password", { exact: true }).fill(owner.password);
    await page.getByRole("button", { name: "Sign in" }).click();
    await page.getByRole("navigation").getByText("More", { exact: true }).click();
    await page.getByRole("navigation").getByRole("link", { name: "Reports" }).click();
    await page.getByRole("link", { name: "Edda and Rowan" }).click();
    await sees(page, `into the booth ${sessions} times`);

    await page.getByLabel("It is").fill(String(sessions + 3));
    await page.getByLabel("Why").fill("three groups before the folder was watched");
    await page.getByRole("button", { name: "Correct it" }).click();
    await sees(page, `Sessions: ${sessions} became ${sessions + 3}`);
    await sees(page, `into the booth ${sessions + 3} times`);

    await page.getByRole("button", { name: "Make a link" }).click();
    const link = (await page.locator("code").textContent()) ?? "";
    const client = await open();
    await client.goto(link);
    await sees(client, `into the booth ${sessions + 3} times`);
    await sees(client, "sessions (corrected)");
    for (const hidden of ["For you alone", "three groups", "Ama", "Alerts"])
      expect(await client.getByText(hidden).count()).toBe(0);

    await page.getByRole("button", { name: "End this link" }).click();
    await page.getByRole("button", { name: "Yes, end it" }).click();
    await page.locator("code").waitFor({ state: "detached" });
    await client.reload();
    await sees(client, "This link leads to no report.");
  });
});
