import { cordSize, type Booking, type PowerPlan } from "@boothward/shared-types";
import fc from "fast-check";
import { aBooking } from "./aBooking.ts";
import { minuteMs, sixAtMs } from "./aStoredItem.ts";

/** What a person may type: no signs that cannot be seen, no half characters and none that stands for one, nothing around it. */
const anyText = fc
  .string({ unit: "grapheme", minLength: 1, maxLength: 30 })
  .map((text) => text.replace(/[\p{C}\u2028\u2029\uFFFD]/gu, "").trim())
  .filter((text) => text !== "");

const short = (chars: number) => anyText.map((text) => [...text].slice(0, chars).join("").trim() || "x");

/** Text with the signs that a file has to escape. */
export const anyName = fc
  .tuple(fc.constantFrom("", "=", "a,b;", 'the "old" ', "back\\slash, ", "two\nlines "), anyText)
  .map((parts) => parts.join("").trim());

const anyPower: fc.Arbitrary<PowerPlan> = fc.record({
  source: fc.constantFrom("mains", "generator", "battery"),
  volts: fc.constantFrom(120, 230),
  breakerA: fc.option(fc.constantFrom(13, 15.5, 20)),
  cord: fc.option(
    fc.record({
      lengthM: fc.constantFrom(0, 7.5, 30),
      size: fc.constantFrom(...cordSize.options),
    }),
  ),
  loads: fc.array(
    fc.record({
      what: fc
        .tuple(fc.constantFrom("", "a; b ", "\\", "2 W "), short(12))
        .map((parts) => parts.join("").trim()),
      watts: fc.constantFrom(0, 45.5, 300),
    }),
    { maxLength: 3 },
  ),
  batteryWh: fc.option(fc.constantFrom(500, 1024.5)),
});

/** A booking with anything that its form takes, of at least an hour. */
export const anyBooking: fc.Arbitrary<Booking> = fc
  .record({
    client: anyName,
    place: anyName,
    notes: fc.oneof(fc.constant(""), anyName),
    eventKind: short(10),
    eventId: fc.option(short(20)),
    zone: fc.constantFrom("Europe/Berlin", "America/New_York", "Asia/Kolkata"),
    minutes: fc.integer({ min: 0, max: 525_000 }),
    lengthMin: fc.integer({ min: 60, max: 900 }),
    breakMin: fc.array(fc.integer({ min: 0, max: 50 }), { maxLength: 2 }),
    readyBeforeMin: fc.option(fc.integer({ min: -30, max: 300 })),
    latitudeDeg: fc.option(fc.constantFrom(51.5, -33.25, 0)),
    guests: fc.option(fc.integer({ min: 0, max: 900 })),
    sheetsLoaded: fc.option(fc.integer({ min: 0, max: 700 })),
    spareRolls: fc.integer({ min: 0, max: 9 }),
    attendant: fc.option(anyText),
    printSizes: fc.subarray(["4x6", "2x6", "6x8"] as const).map((sizes) => [...sizes]),
    printsPerSession: fc.option(fc.constantFrom(1, 2, 2.5)),
    travelMin: fc.option(fc.integer({ min: 0, max: 600 })),
    power: fc.option(anyPower),
    headingDeg: fc.option(fc.constantFrom(0, 123.5)),
    expectedHighC: fc.option(fc.constantFrom(-3, 31.5)),
    horizon: fc.array(
      fc.record({ azimuthDeg: fc.constantFrom(-90, 0, 180.5), elevationDeg: fc.constantFrom(-1, 0, 22.5) }),
      { maxLength: 3 },
    ),
  })
  .map(({ minutes, lengthMin, breakMin, readyBeforeMin, latitudeDeg, ...its }) => {
    const { headingDeg, expectedHighC, horizon, ...plan } = its;
    const openAtMs = sixAtMs + minutes * minuteMs;
    return aBooking({
      ...{ ...plan, openAtMs, closeAtMs: openAtMs + lengthMin * minuteMs },
      ...{ latitudeDeg, longitudeDeg: latitudeDeg === null ? null : -0.12 },
      breaks: breakMin.map((at) => ({
        fromAtMs: openAtMs + at * minuteMs,
        toAtMs: openAtMs + (at + 5) * minuteMs,
      })),
      promisedAtMs: readyBeforeMin === null ? null : openAtMs - readyBeforeMin * minuteMs,
      standing: { headingDeg, expectedHighC, horizon },
    });
  });
