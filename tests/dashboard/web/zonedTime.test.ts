import { describe, expect, it } from "vitest";
import { instantOf, wallOf } from "../../../dashboard/web/words/zonedTime.ts";

const hourMs = 3_600_000;
const lengthHours = (zone: string, from: [string, string], to: [string, string]): number =>
  ((instantOf(to[0], to[1], zone) ?? NaN) - (instantOf(from[0], from[1], zone) ?? NaN)) / hourMs;

describe("open hours in the venue's zone", () => {
  // Lengths across the changes of the clock computed independently from the tz database.
  it("are as long as they really are when the clock changes in the night", () => {
    expect(lengthHours("America/New_York", ["2026-10-31", "20:00"], ["2026-11-01", "02:30"])).toBe(7.5);
    expect(lengthHours("Europe/Berlin", ["2026-10-24", "20:00"], ["2026-10-25", "03:30"])).toBe(8.5);
    expect(lengthHours("Europe/Berlin", ["2026-03-28", "20:00"], ["2026-03-29", "03:30"])).toBe(6.5);
  });

  // Berlin is two hours ahead of UTC in summer, Kolkata five and a half, New York four behind (tz database).
  it.each([
    ["Europe/Berlin", "2026-06-20", "18:00", Date.UTC(2026, 5, 20, 16, 0)],
    ["Asia/Kolkata", "2026-06-20", "18:00", Date.UTC(2026, 5, 20, 12, 30)],
    ["America/New_York", "2026-06-20", "18:00", Date.UTC(2026, 5, 20, 22, 0)],
    ["UTC", "2026-06-20", "18:00", Date.UTC(2026, 5, 20, 18, 0)],
  ])("in %s come to the right instant and back", (zone, date, time, atMs) => {
    expect(instantOf(date, time, zone)).toBe(atMs);
    expect(wallOf(atMs, zone)).toEqual({ date, time });
  });

  it("take the first of an hour that comes twice", () => {
    // 2026-10-25 02:30 in Berlin is 00:30 UTC in summer time and 01:30 UTC in winter time.
    expect(instantOf("2026-10-25", "02:30", "Europe/Berlin")).toBe(Date.UTC(2026, 9, 25, 0, 30));
  });

  it("pass on by as much over an hour that is left out", () => {
    // 2026-03-29 02:30 does not exist in Berlin; 01:30 UTC is 03:30 there.
    const atMs = instantOf("2026-03-29", "02:30", "Europe/Berlin");
    expect(atMs).toBe(Date.UTC(2026, 2, 29, 1, 30));
  });

  it("are null for what is no date or time", () => {
    expect(instantOf("", "18:00", "UTC")).toBeNull();
    expect(instantOf("2026-06-20", "late", "UTC")).toBeNull();
  });
});
