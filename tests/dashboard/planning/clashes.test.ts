import type { Booking } from "@boothward/shared-types";
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { clashesOf } from "../../../dashboard/planning/clashes.ts";
import { greatCircleKm } from "../../../dashboard/planning/greatCircleKm.ts";
import { instantOf } from "../../../dashboard/web/words/zonedTime.ts";
import { aBooking } from "../../support/aBooking.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

/** Another booth's booking at another place, on the same evening. */
const another = (over: Partial<Booking> = {}): Booking =>
  aBooking({
    bookingId: "booking-2",
    boothId: "sorrel",
    client: "Harbour Choir",
    place: "Old Mill",
    ...over,
  });

const attended = (attendant: string | null) => ({ attendant });

describe("a booth or an attendant at two places", () => {
  it("is said of one booth at the same time, and of both bookings alike", () => {
    const [first, second] = [aBooking(), another({ boothId: "juniper", openAtMs: sixAtMs + 4 * hourMs })];
    expect(clashesOf(first, [first, second])).toMatchObject([
      { kind: "overlap", of: "booth", other: { bookingId: "booking-2", client: "Harbour Choir" } },
    ]);
    expect(clashesOf(second, [first, second])).toMatchObject([
      { kind: "overlap", other: { bookingId: "booking-1" } },
    ]);
  });

  it("is said of one attendant, however the name is written, but not at one event or with nobody named", () => {
    const of = (one: string | null, two: string | null, over: Partial<Booking> = {}) =>
      clashesOf(aBooking(attended(one)), [another({ ...attended(two), ...over })]).map(
        ({ of: whose }) => whose,
      );
    expect(of("Ama Quill", " ama quill")).toEqual(["attendant"]);
    expect(of("Ama Quill", "Ben Tansy")).toEqual([]);
    expect(of(null, null)).toEqual([]);
    expect(of("", " ")).toEqual([]);
    expect(of("Ama Quill", "Ama Quill", { eventId: "booking-1" })).toEqual([]);
  });

  it("is not said of two that touch at one place", () => {
    const next = another({ ...{ boothId: "juniper", place: "quarry barn" }, openAtMs: sixAtMs + 5 * hourMs });
    expect(clashesOf(aBooking(), [{ ...next, closeAtMs: next.openAtMs + hourMs }])).toEqual([]);
  });
});

describe("too little time between", () => {
  // 45 min to pack down and 60 to set up: common practice, no source.
  const between = (gapMin: number, over: Partial<Booking> = {}) => {
    const openAtMs = sixAtMs + 5 * hourMs + gapMin * minuteMs;
    const next = another({ boothId: "juniper", openAtMs, closeAtMs: openAtMs + 3 * hourMs, ...over });
    return clashesOf(aBooking(), [next]);
  };

  it("counts packing, the drive as it was said, and setting up", () => {
    expect(between(164, { travelMin: 60 })).toMatchObject([
      { kind: "tooClose", of: "booth", gapMin: 164, needsMin: 165, travelMin: 60 },
    ]);
    expect(between(165, { travelMin: 60 })).toEqual([]);
  });

  it("reckons the drive from the two places, and leaves it out where one is not known", () => {
    // Half a degree of latitude is 55.6 km; 1.3 times that at 50 km/h takes 87 minutes.
    const far = { latitudeDeg: 52, longitudeDeg: 0, travelMin: null };
    expect(between(191, far)).toMatchObject([{ travelMin: 87, needsMin: 192 }]);
    expect(between(192, far)).toEqual([]);
    expect(between(104, { latitudeDeg: null })).toMatchObject([{ travelMin: null, needsMin: 105 }]);
    expect(between(105, { latitudeDeg: null })).toEqual([]);
  });

  it("counts to the time that was promised", () => {
    const promised = { travelMin: 0, promisedAtMs: sixAtMs + 6 * hourMs };
    expect(between(120, promised)).toMatchObject([{ gapMin: 60, needsMin: 105 }]);
  });

  it("counts instants across a change of the clock", () => {
    // Berlin 2026-10-25: 03:00 summer time is 02:00 winter time; from 02:00 to 03:30 by the wall are 2.5 hours.
    const zone = "Europe/Berlin";
    const at = (date: string, time: string) => instantOf(date, time, zone) ?? NaN;
    const first = aBooking({
      ...{ zone, openAtMs: at("2026-10-24", "20:00"), closeAtMs: at("2026-10-25", "02:00") },
    });
    const openAtMs = at("2026-10-25", "03:30");
    const next = another({
      ...{ boothId: "juniper", travelMin: 46 },
      zone,
      openAtMs,
      closeAtMs: openAtMs + hourMs,
    });
    expect(clashesOf(first, [next])).toMatchObject([{ gapMin: 150, needsMin: 151 }]);
  });
});

describe("the way over the earth", () => {
  it("is a quarter of the way round from the equator to a pole, and over the date line", () => {
    // 10,007.5 km: a quarter of a circle of the IUGG's mean radius.
    const equator = { latitudeDeg: 0, longitudeDeg: 0 };
    expect(greatCircleKm(equator, { latitudeDeg: 90, longitudeDeg: 77 })).toBeCloseTo(10_007.557, 2);
    expect(
      greatCircleKm({ latitudeDeg: 0, longitudeDeg: 179.5 }, { latitudeDeg: 0, longitudeDeg: -179.5 }),
    ).toBeCloseTo(111.195, 2);
    expect(greatCircleKm(equator, { latitudeDeg: 0, longitudeDeg: 180 })).toBeCloseTo(20_015.115, 2);
  });

  it("is the same there and back", () => {
    const place = fc.record({
      latitudeDeg: fc.double({ min: -90, max: 90, noNaN: true }),
      longitudeDeg: fc.double({ min: -180, max: 180, noNaN: true }),
    });
    fc.assert(
      fc.property(place, place, (a, b) => {
        const km = greatCircleKm(a, b);
        return km >= 0 && km < 20_016 && Math.abs(km - greatCircleKm(b, a)) < 1e-6;
      }),
    );
  });
});
