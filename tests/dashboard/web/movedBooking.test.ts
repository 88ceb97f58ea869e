import { DateTime } from "luxon";
import { describe, expect, it } from "vitest";
import { movedBooking } from "../../../dashboard/web/plan/movedBooking.ts";
import { instantOf } from "../../../dashboard/web/words/zonedTime.ts";
import { aBooking } from "../../support/aBooking.ts";

const zone = "Europe/Berlin";
const at = (date: string, time: string) => instantOf(date, time, zone) ?? NaN;
const clock = (atMs: number) => DateTime.fromMillis(atMs, { zone }).toFormat("yyyy-MM-dd HH:mm");

const summer = aBooking({
  ...{ zone, openAtMs: at("2026-10-17", "20:00"), closeAtMs: at("2026-10-18", "03:30") },
  promisedAtMs: at("2026-10-17", "19:30"),
  breaks: [{ fromAtMs: at("2026-10-17", "23:30"), toAtMs: at("2026-10-18", "00:15") }],
});

describe("another booth of an event that is copied", () => {
  it("keeps its clock times on the new date, though the night is longer by an hour there", () => {
    // Berlin's clocks go back on 2026-10-25 at 03:00 (tz database, read here by luxon).
    const to = { zone, openAtMs: at("2026-10-24", "18:00") };
    const moved = movedBooking(summer, { ...summer, openAtMs: at("2026-10-17", "18:00") }, to);
    expect(clock(moved.openAtMs)).toBe("2026-10-24 20:00");
    expect(clock(moved.closeAtMs)).toBe("2026-10-25 03:30");
    expect(moved.closeAtMs - moved.openAtMs).toBe(8.5 * 3_600_000);
    expect(moved.breaks.map(({ fromAtMs, toAtMs }) => [clock(fromAtMs), clock(toAtMs)])).toEqual([
      ["2026-10-24 23:30", "2026-10-25 00:15"],
    ]);
    expect(clock(moved.promisedAtMs ?? NaN)).toBe("2026-10-24 19:30");
  });

  it("follows its event by whole days, whatever hour the other booth opens at", () => {
    const night = { zone, openAtMs: at("2026-10-18", "00:30") };
    const moved = movedBooking(summer, night, { zone, openAtMs: at("2027-02-28", "13:00") });
    expect(clock(moved.openAtMs)).toBe("2027-02-27 20:00");
  });
});
