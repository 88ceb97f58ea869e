import { Observer, SearchRiseSet } from "astronomy-engine";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { localDay, sunDay } from "../../../../dashboard/forecast/sun/sunDay.ts";
import { sunAt, type Place } from "../../../../dashboard/forecast/sun/sunPosition.ts";
import { anyBetween } from "../../../support/anyBetween.ts";

const golden = { latitudeDeg: 39.742476, longitudeDeg: -105.1786 };
const hourMs = 3_600_000;

function secondsOff(found: number | null, expected: string): number {
  return Math.abs((found ?? NaN) - Date.parse(expected)) / 1000;
}

describe("the sun's day", () => {
  // Source: pvlib's tests, set at Golden.
  it("rises, culminates and sets at the published times at Golden on 2 January 2015", () => {
    const day = sunDay(golden, Date.UTC(2015, 0, 2, 19), "America/Denver");
    expect(secondsOff(day.riseAtMs, "2015-01-02T07:21:55-07:00")).toBeLessThan(5);
    expect(secondsOff(day.transitAtMs, "2015-01-02T12:04:45-07:00")).toBeLessThan(5);
    expect(secondsOff(day.setAtMs, "2015-01-02T16:47:43-07:00")).toBeLessThan(5);
  });

  // Source: NREL TP-560-34302, worked example (from memory). Its sunset wraps to the UT day, so it is that of the
  // evening before by local clocks.
  it("rises and sets at the published times near Golden in October 2003", () => {
    const evening = sunDay(golden, Date.UTC(2003, 9, 16, 19), "America/Denver");
    const morning = sunDay(golden, Date.UTC(2003, 9, 17, 19), "America/Denver");
    expect(secondsOff(morning.riseAtMs, "2003-10-17T06:12:43-07:00")).toBeLessThan(5);
    expect(secondsOff(evening.setAtMs, "2003-10-16T17:20:19-07:00")).toBeLessThan(5);
  });

  it("agrees within 20 s with an independent almanac anywhere outside the polar circles, at any season", () => {
    fc.assert(
      fc.property(
        anyBetween(-65.5, 65.5),
        fc.integer({ min: -11, max: 11 }),
        fc.integer({ min: Date.UTC(2024, 0, 1), max: Date.UTC(2031, 0, 1) }),
        (latitudeDeg, ahead, atMs) => {
          // Signs in the names of these zones are turned round: Etc/GMT-3 is ahead of UTC.
          const zone = `Etc/GMT${ahead > 0 ? "-" : "+"}${String(Math.abs(ahead))}`;
          const place = { latitudeDeg, longitudeDeg: ahead * 15 + 4 };
          const day = sunDay(place, atMs, zone);
          expect(secondsFromAlmanac(place, day.riseAtMs, 1)).toBeLessThan(20);
          expect(secondsFromAlmanac(place, day.setAtMs, -1)).toBeLessThan(20);
        },
      ),
      { seed: 4, numRuns: 300 },
    );
  });

  it("has no rise and no set in the polar day and the polar night, north and south", () => {
    const north = { latitudeDeg: 70, longitudeDeg: 25 };
    const south = { latitudeDeg: -78, longitudeDeg: 167 };
    const [june, december] = [Date.UTC(2026, 5, 21, 10), Date.UTC(2026, 11, 21, 10)];
    const course = (place: Place, atMs: number) => sunDay(place, atMs, "UTC").course;
    expect([course(north, june), course(north, december)]).toEqual(["upAllDay", "downAllDay"]);
    expect([course(south, june), course(south, december)]).toEqual(["downAllDay", "upAllDay"]);
    expect(sunDay(north, june, "Europe/Oslo")).toMatchObject({ riseAtMs: null, setAtMs: null });
  });

  it("may set after midnight in a northern summer, and is then still that day's", () => {
    const place = { latitudeDeg: 65.5, longitudeDeg: 24 };
    const day = sunDay(place, Date.UTC(2026, 5, 20, 12), "Europe/Helsinki");
    const next = localDay(Date.UTC(2026, 5, 20, 12), "Europe/Helsinki").toMs;
    expect(day.setAtMs).toBeGreaterThan(next);
    expect(day.riseAtMs).toBeLessThan(day.transitAtMs);
  });

  it("is about twelve hours at the equator in every month", () => {
    for (let month = 0; month < 12; month++) {
      const { riseAtMs, setAtMs } = sunDay(
        { latitudeDeg: 0, longitudeDeg: 0 },
        Date.UTC(2026, month, 15, 12),
        "UTC",
      );
      expect(((setAtMs ?? 0) - (riseAtMs ?? 0)) / hourMs).toBeCloseTo(12.12, 1);
    }
  });

  it("is long in January and short in July in the southern hemisphere", () => {
    const hours = (month: number) => {
      const place = { latitudeDeg: -33.87, longitudeDeg: 151.21 };
      const day = sunDay(place, Date.UTC(2026, month, 10, 2), "Australia/Sydney");
      return ((day.setAtMs ?? 0) - (day.riseAtMs ?? 0)) / hourMs;
    };
    expect(hours(0)).toBeGreaterThan(14);
    expect(hours(6)).toBeLessThan(10.2);
  });

  it("sets at one moment on two dates on the two sides of the date line", () => {
    const atMs = Date.UTC(2026, 2, 10, 11);
    const west = sunDay({ latitudeDeg: -13.8, longitudeDeg: -172 }, atMs, "Pacific/Apia");
    const east = sunDay({ latitudeDeg: -14.3, longitudeDeg: -170.7 }, atMs, "Pacific/Pago_Pago");
    const dayOf = (seenMs: number | null, zone: string) =>
      new Intl.DateTimeFormat("en-CA", { timeZone: zone, dateStyle: "short" }).format(seenMs ?? 0);
    expect(dayOf(west.setAtMs, "Pacific/Apia")).toBe("2026-03-11");
    expect(dayOf(east.setAtMs, "Pacific/Pago_Pago")).toBe("2026-03-10");
    expect(Math.abs((west.setAtMs ?? 0) - (east.setAtMs ?? 0)) / hourMs).toBeLessThan(0.2);
  });

  it("is at its height at the transit, to a degree", () => {
    const { transitAtMs } = sunDay(golden, Date.UTC(2026, 6, 1, 19), "America/Denver");
    expect(Math.abs(sunAt(golden, transitAtMs).azimuthDeg - 180)).toBeLessThan(0.05);
  });
});

describe("a local day", () => {
  it.each([
    ["Europe/Berlin", Date.UTC(2026, 2, 29, 12), 23],
    ["Europe/Berlin", Date.UTC(2026, 9, 25, 0, 30), 25],
    ["Australia/Lord_Howe", Date.UTC(2026, 3, 5, 3), 24.5],
    ["Asia/Kathmandu", Date.UTC(2026, 5, 1, 20), 24],
  ])("in %s from midnight to midnight", (zone, atMs, hours) => {
    const { fromMs, toMs } = localDay(atMs, zone);
    const clock = new Intl.DateTimeFormat("en-GB", { timeZone: zone, timeStyle: "medium" });
    expect([fromMs, toMs].map((each) => clock.format(each))).toEqual(["00:00:00", "00:00:00"]);
    expect((toMs - fromMs) / hourMs).toBe(hours);
    expect(fromMs <= atMs && atMs < toMs).toBe(true);
  });
});

function secondsFromAlmanac(place: Place, seenMs: number | null, direction: 1 | -1): number {
  const observer = new Observer(place.latitudeDeg, place.longitudeDeg, 0);
  const from = new Date((seenMs ?? NaN) - 6 * hourMs);
  const found = SearchRiseSet("Sun" as Parameters<typeof SearchRiseSet>[0], observer, direction, from, 1);
  return Math.abs((found?.date.getTime() ?? NaN) - (seenMs ?? NaN)) / 1000;
}
