import { fileRead } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner } from "../../support/aDashboard.ts";
import { aHandClock } from "../../support/aHandClock.ts";

const read = z.custom<z.infer<typeof fileRead>>((answer) => fileRead.safeParse(answer).success);
const dayMs = 86_400_000;
const rowCount = 10_000;

/** So many evenings, one after the other. */
function aLongRunSheet(lastRow = ""): string {
  const rows = Array.from({ length: rowCount }, (_, at) => {
    const day = new Date(Date.UTC(2000, 0, 1) + at * dayMs).toISOString().slice(0, 10);
    return `Juniper,Client ${at},party,${day} 18:00,${day} 22:00\n`;
  });
  return `booth,client,kind,opens,closes\n${rows.join("")}${lastRow}`;
}

async function aDashboardWithJuniper() {
  const dashboard = await aDashboard({ clock: aHandClock(Date.UTC(2026, 4, 4, 12)).clock });
  const api = await anOwner(dashboard);
  await addBooth(api, "Juniper");
  const send = (text: string) =>
    api.post("/api/bookings/import", { format: "csv", text, zone: "Europe/Berlin", isLook: false }, read);
  const list = async () =>
    (await api.get("/api/bookings", z.object({ bookings: z.array(z.unknown()) }))).bookings.length;
  return { api, send, list };
}

describe("a file of thousands of rows", () => {
  it("lets others be answered while it is read", async () => {
    const { api, send, list } = await aDashboardWithJuniper();
    let [answered, isRead] = [0, false];
    const sent = send(aLongRunSheet()).finally(() => (isRead = true));
    while (!isRead) {
      await api.get("/api/me", z.unknown());
      answered += 1;
    }
    expect(await sent).toMatchObject({ counts: { new: rowCount }, problemCount: 0, isKept: true });
    // One for each turn or two; where a file is read in one go it is three in all.
    expect(answered).toBeGreaterThan(20);
    expect(await list()).toBe(rowCount);
  });

  it("is refused whole for its last row", async () => {
    const { send, list } = await aDashboardWithJuniper();
    const refused = await send(aLongRunSheet("Juniper,Late,party,2000-01-01 19:00,2000-01-01 23:00\n"));
    expect(refused).toMatchObject({ problems: [{ line: rowCount + 2, column: "opens" }], isKept: false });
    expect(await list()).toBe(0);
  });
});
