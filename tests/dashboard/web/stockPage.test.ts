import { describe, expect, it, vi } from "vitest";
import { moveReason } from "../../../dashboard/web/stock/moveReason.ts";
import { moveText } from "../../../dashboard/web/stock/moveText.ts";
import { stockVerdict } from "../../../dashboard/web/stock/stockVerdict.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { stockLate, stockLow } from "../../shots/stockScenes.ts";
import { chromiumPages } from "../../support/aChromiumPage.ts";
import { aStub, sees } from "../../support/aStub.ts";
import { needsTool } from "../../support/needsTool.ts";
import { until } from "../../support/until.ts";
import { readFileText } from "../../../dashboard/web/parts/readFileText.ts";

// A browser on two busy cores needs its time.
vi.setConfig({ testTimeout: 120_000 });

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const names = { booths: [], bookings: [] };

describe("the stock in words", () => {
  it("says first by when to order how many", () => {
    const low = stockLow().stock!;
    expect(stockVerdict(low, format).headline).toBe("Order 12 rolls by Thursday 2 July.");
    expect(stockVerdict(stockLate().stock!, format).headline).toBe("Order 26 rolls now.");
    const none = { ...low, advice: low.advice && { ...low.advice, orderByAtMs: null } };
    expect(stockVerdict(none, format).headline).toBe("No order is needed before Saturday 19 December.");
    expect(stockVerdict({ ...low, moves: [] }, format).headline).toBe("No rolls are written down yet.");
    expect(stockVerdict({ ...low, advice: null }, format).headline).toBe("Count the rolls first.");
  });

  it("tells each line of the ledger", () => {
    expect(stockLow().stock!.moves.map((move) => moveText(move, names))).toEqual([
      "1 roll put in: from At an event that was taken off the run sheet",
      "3 rolls: In the store → At an event that was taken off the run sheet",
      "2 rolls: In the store → ?'s case",
      "12 rolls ordered",
      "In the store: counted 9 rolls and 2 part rolls with 158, 64 sheets",
      "A part roll with 158 sheets came off: to ?'s case",
      "12 rolls came",
    ]);
  });

  it.each([
    ["supplier", "store", "bought"],
    ["store", "case:juniper", "loaded"],
    ["case:juniper", "store", "returned"],
    ["event:fair", "lost", "lost"],
    ["case:juniper", "used", "used"],
    ["used", "store", "corrected"],
  ])("knows why rolls go from %s to %s", (from, to, why) => {
    expect(moveReason(from, to)).toBe(why);
  });
});

describe("the text of a file", () => {
  // Bytes by the tables of Unicode 3.10 (UTF-16), of UTF-8 and of Windows-1252.
  it.each([
    ["UTF-8", [0xc3, 0xa4]],
    ["UTF-16, little end first", [0xff, 0xfe, 0xe4, 0x00]],
    ["UTF-16, big end first", [0xfe, 0xff, 0x00, 0xe4]],
    ["Windows-1252", [0xe4]],
  ])("is read from %s", async (_, bytes) => {
    expect(await readFileText(new Blob([new Uint8Array(bytes)]))).toBe("ä");
  });
});

const inChromium = needsTool(["chromium", "chromium-browser"], "apt-get install chromium");

inChromium("the Stock page in Chromium", () => {
  const openPage = chromiumPages();

  it("sends a count and a file, each once and only as it was meant", async () => {
    const stub = await aStub(stockLow());
    const page = await openPage();
    await page.goto(`${stub.origin}/stock`);
    await sees(page, "Order 12 rolls by Thursday 2 July.");
    await page.getByRole("button", { name: "Count", exact: true }).click();
    await page.getByLabel("Full rolls there now").fill("8");
    await page.getByLabel("Sheets on each part roll").fill("158 many");
    await page.getByRole("button", { name: "This is what is there" }).click();
    await sees(page, "Write whole numbers with a space between them");
    expect(stub.asked).toEqual([]);
    await page.getByLabel("Sheets on each part roll").fill("158 90");
    await page.getByRole("button", { name: "This is what is there" }).click();
    await until(() => stub.asked.length === 1, "the count to be sent");
    expect(stub.asked[0]).toMatchObject({
      ...{ address: "/api/stock/counts", body: { place: "store", fullRolls: 8, partials: [158, 90] } },
    });

    await page.getByText("As a file").click();
    const file = (text: string) => ({ name: "lines.csv", mimeType: "text/csv", buffer: Buffer.from(text) });
    await page.getByLabel("Lines from a file (CSV)").setInputFiles(file("wrong"));
    await sees(page, "Line 4, opens: 20/06/2026 is no time");
    expect(await page.getByRole("button", { name: "Keep all" }).count()).toBe(0);
    await page.getByLabel("Lines from a file (CSV)").setInputFiles(file("good"));
    await page.getByRole("button", { name: "Keep all 2" }).click();
    await sees(page, "2 lines were kept.");
    expect(stub.asked.slice(1).map(({ body }) => (body as { isLook: boolean }).isLook)).toEqual([
      true,
      true,
      false,
    ]);
  });
});
