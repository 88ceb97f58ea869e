import { describe, expect, it } from "vitest";
import { quietUntilAtMs } from "../../../dashboard/notify/quietHours.ts";

const berlin = { from: "22:00", to: "07:00", zone: "Europe/Berlin" };
const at = (iso: string) => Date.parse(iso);
const until = (hours: typeof berlin, iso: string) => {
  const atMs = quietUntilAtMs(hours, at(iso));
  return atMs === null ? null : new Date(atMs).toISOString();
};

describe("quiet hours", () => {
  it("hold from their begin up to their end, over midnight", () => {
    expect(until(berlin, "2026-06-20T21:59:59+02:00")).toBeNull();
    expect(until(berlin, "2026-06-20T22:00:00+02:00")).toBe("2026-06-21T05:00:00.000Z");
    expect(until(berlin, "2026-06-21T06:59:59+02:00")).toBe("2026-06-21T05:00:00.000Z");
    expect(until(berlin, "2026-06-21T07:00:00+02:00")).toBeNull();
  });

  it("hold within a day too", () => {
    const nap = { from: "13:00", to: "15:00", zone: "Europe/Berlin" };
    expect(until(nap, "2026-06-20T12:59:00+02:00")).toBeNull();
    expect(until(nap, "2026-06-20T14:00:00+02:00")).toBe("2026-06-20T13:00:00.000Z");
    expect(until(nap, "2026-06-20T15:00:00+02:00")).toBeNull();
  });

  // Source of the instants below: tz database. Berlin: 2026-10-25 at 03:00 +02:00 back to 02:00 +01:00;
  // 2026-03-29 at 02:00 +01:00 on to 03:00 +02:00. New York: 2026-11-01 at 02:00 -04:00 back to 01:00 -05:00.
  it("end by the clock on the wall in the night that is an hour longer", () => {
    expect(until(berlin, "2026-10-24T23:00:00+02:00")).toBe("2026-10-25T06:00:00.000Z");
    expect(until(berlin, "2026-10-25T02:30:00+02:00")).toBe("2026-10-25T06:00:00.000Z");
    expect(until(berlin, "2026-10-25T02:30:00+01:00")).toBe("2026-10-25T06:00:00.000Z");
    expect(until(berlin, "2026-10-25T06:59:00+01:00")).toBe("2026-10-25T06:00:00.000Z");
    expect(until(berlin, "2026-10-25T07:00:00+01:00")).toBeNull();
    const newYork = { ...berlin, zone: "America/New_York" };
    expect(until(newYork, "2026-10-31T23:00:00-04:00")).toBe("2026-11-01T12:00:00.000Z");
    expect(until(newYork, "2026-11-01T01:30:00-04:00")).toBe("2026-11-01T12:00:00.000Z");
    expect(until(newYork, "2026-11-01T01:30:00-05:00")).toBe("2026-11-01T12:00:00.000Z");
    expect(until(newYork, "2026-11-01T07:00:00-05:00")).toBeNull();
  });

  it("end by the clock on the wall in the night that is an hour shorter", () => {
    expect(until(berlin, "2026-03-28T23:00:00+01:00")).toBe("2026-03-29T05:00:00.000Z");
    expect(until(berlin, "2026-03-29T03:30:00+02:00")).toBe("2026-03-29T05:00:00.000Z");
  });

  it("that end in the hour that is there twice are quiet both times", () => {
    const late = { ...berlin, to: "02:30" };
    expect(until(late, "2026-10-25T02:15:00+02:00")).toBe("2026-10-25T01:30:00.000Z");
    expect(until(late, "2026-10-25T02:45:00+02:00")).toBe("2026-10-25T01:30:00.000Z");
    expect(until(late, "2026-10-25T02:29:00+01:00")).toBe("2026-10-25T01:30:00.000Z");
    expect(until(late, "2026-10-25T02:30:00+01:00")).toBeNull();
  });

  it("that begin in the hour that is there twice begin the first time", () => {
    const late = { ...berlin, from: "02:30" };
    expect(until(late, "2026-10-25T02:29:00+02:00")).toBeNull();
    expect(until(late, "2026-10-25T02:30:00+02:00")).toBe("2026-10-25T06:00:00.000Z");
    expect(until(late, "2026-10-25T02:15:00+01:00")).toBe("2026-10-25T06:00:00.000Z");
  });

  it("that end or begin in the hour that is skipped do so at the skip", () => {
    expect(until({ ...berlin, to: "02:30" }, "2026-03-29T01:59:00+01:00")).toBe("2026-03-29T01:00:00.000Z");
    expect(until({ ...berlin, to: "02:30" }, "2026-03-29T03:00:00+02:00")).toBeNull();
    expect(until({ ...berlin, from: "02:30" }, "2026-03-29T01:59:59+01:00")).toBeNull();
    expect(until({ ...berlin, from: "02:30" }, "2026-03-29T03:00:00+02:00")).toBe("2026-03-29T05:00:00.000Z");
  });
});
