import { fileRead, planView, type PlanView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { aDashboard, anOwner } from "../../support/aDashboard.ts";
import { aHandClock } from "../../support/aHandClock.ts";
import { aTrailerBox } from "../../support/aTrailerBox.ts";
import { hourMs } from "../../support/aStoredItem.ts";

const bookingsShape = z.object({
  bookings: z.array(z.object({ bookingId: z.string(), openAtMs: z.number(), closeAtMs: z.number() })),
});
const read = z.custom<z.infer<typeof fileRead>>((answer) => fileRead.safeParse(answer).success);
const plan = z.custom<PlanView>((answer) => planView.safeParse(answer).success);

/** What becomes of one row of a run sheet for a measured trailer that heads north. */
async function planned(row: string) {
  const dashboard = await aDashboard({ clock: aHandClock(Date.UTC(2026, 0, 10, 12)).clock });
  const api = await anOwner(dashboard);
  const sorrel = { name: "Sorrel", isTrailer: true, kitSheets: 400, limitC: 40, box: aTrailerBox() };
  await api.post("/api/booths", sorrel, z.unknown());
  const head = "booth,client,kind,time zone,opens,closes,latitude,longitude,heading";
  const text = `${head}\nSorrel,Edda and Rowan,party,${row}\n`;
  const file = await api.post(
    "/api/bookings/import",
    { format: "csv", text, zone: "UTC", isLook: false },
    read,
  );
  expect(file).toMatchObject({ isKept: true, problemCount: 0 });
  const [booking] = (await api.get("/api/bookings", bookingsShape)).bookings;
  if (booking === undefined) throw new Error("the row was kept");
  const view = await api.get(`/api/bookings/${encodeURIComponent(booking.bookingId)}/plan`, plan);
  return { hours: (booking.closeAtMs - booking.openAtMs) / hourMs, sun: view.sun, booking };
}

describe("an event at an odd place or hour", () => {
  // Clock changes of the tz database: Berlin goes back on 2026-10-25 at 03:00, forward on 2026-03-29 at 02:00.
  it.each([
    ["is as long as it really is when the clock goes back", "2026-10-24 20:00,2026-10-25 04:00", 9],
    ["is as long as it really is when the clock goes forward", "2026-03-28 20:00,2026-03-29 04:00", 7],
    ["goes on over midnight", "2026-06-20 20:00,2026-06-21 04:00", 8],
  ])("%s", async (_, hours, long) => {
    expect((await planned(`Europe/Berlin,${hours},52,11,0`)).hours).toBe(long);
  });

  it("has no sun in the polar night, and some at midnight on the polar day", async () => {
    const winter = await planned("Arctic/Longyearbyen,2026-12-20 10:00,2026-12-20 16:00,78.2,15.6,0");
    expect(winter.sun).toEqual([]);
    const summer = await planned("Arctic/Longyearbyen,2026-06-20 20:00,2026-06-21 04:00,78.2,15.6,270");
    expect(summer.sun?.length).toBeGreaterThan(0);
  });

  it("has the sun from the west in the afternoon on the equator", async () => {
    const { sun, booking } = await planned("UTC,2026-03-20 08:00,2026-03-20 20:00,0,0,0");
    expect(sun?.length).toBeGreaterThan(0);
    for (const { fromAtMs, toAtMs } of sun ?? []) {
      expect(fromAtMs).toBeLessThan(toAtMs);
      // On the day of the equinox the sun is up there from six to six, and some minutes (common practice, no source).
      expect(fromAtMs).toBeGreaterThanOrEqual(booking.openAtMs - 2.2 * hourMs);
      expect(toAtMs).toBeLessThanOrEqual(booking.closeAtMs - 1.5 * hourMs);
    }
  });
});
