import { describe, expect, it } from "vitest";
import { formatIn } from "../../../dashboard/alerts/format.ts";

const metric = formatIn("Europe/Berlin", "metric", "en-GB");
const us = formatIn("America/New_York", "us", "en-US");
const at = Date.UTC(2026, 5, 20, 19, 25);

describe("what a person reads of a figure", () => {
  it("shows clock times in the venue's zone and the reader's manner", () => {
    expect(metric.clock(at)).toBe("21:25");
    expect(metric.clock(Date.UTC(2026, 5, 20, 5, 5))).toBe("07:05");
    expect(us.clock(at)).toMatch(/^3:25\sPM$/);
  });

  it("leaves the minutes of a whole hour off an axis", () => {
    expect(metric.hour(Date.UTC(2026, 5, 20, 19, 0))).toBe("21");
    expect(metric.hour(Date.UTC(2026, 5, 20, 7, 0))).toBe("9");
    expect(us.hour(Date.UTC(2026, 5, 20, 19, 0))).toMatch(/^3\sPM$/);
  });

  it("names the day at the venue, not in UTC", () => {
    expect(metric.day(Date.UTC(2026, 5, 20, 21, 59))).toBe("Saturday 20 June");
    expect(metric.day(Date.UTC(2026, 5, 20, 22, 1))).toBe("Sunday 21 June");
  });

  it("says lengths in whole minutes, and in hours from an hour and a half on", () => {
    expect(metric.minutes(29 * 60_000)).toBe("29 minutes");
    expect(metric.minutes(61_000)).toBe("1 minute");
    expect(metric.minutes(-5)).toBe("0 minutes");
    expect(metric.minutes(125 * 60_000)).toBe("2 hours 5 minutes");
    expect(metric.minutes(120 * 60_000)).toBe("2 hours");
  });

  // 40 degrees Celsius are 104 Fahrenheit, a difference of 1.5 is one of 2.7: the scale's definition.
  it("gives temperatures and their differences in the reader's units", () => {
    expect(metric.temperature(36.84)).toBe("37\u00a0°C");
    expect(metric.temperature(36.84, 1)).toBe("36.8\u00a0°C");
    expect(us.temperature(40)).toBe("104\u00a0°F");
    expect(us.degrees(1.5)).toBe("2.7\u00a0°F");
    expect(metric.degrees(1.5)).toBe("1.5\u00a0°C");
  });

  it("says ages short", () => {
    expect(
      [8_000, 59_400, 29 * 60_000, 5 * 3_600_000, 50 * 3_600_000].map((lengthMs) => metric.age(lengthMs)),
    ).toEqual(["8 s", "59 s", "29 min", "5 h", "2 days"]);
    expect(metric.age(-1500)).toBe("0 s");
  });
});
