import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { sunsetAtMs } from "../../../../dashboard/forecast/index.ts";

const golden = { latitudeDeg: 39.742476, longitudeDeg: -105.1786 };
const minuteMs = 60_000;

/** suncalc is within a few seconds of both. */
const toleranceMs = 5_000;

describe("sunset", () => {
  // Source: the SPA's worked example (NREL TP-560-34302) for 17 October 2003 gives 17:20:19 MST; the figure is
  // from memory. SPA's sunset wraps to the UT day, so it is that of the local evening before.
  it("is at 17:20:19 MST near Golden on 16 October 2003, and earlier the day after", () => {
    const before = sunsetAtMs(golden, Date.UTC(2003, 9, 16, 19), "America/Denver") ?? 0;
    const after = sunsetAtMs(golden, Date.UTC(2003, 9, 17, 19), "America/Denver") ?? 0;
    expect(Math.abs(before - Date.UTC(2003, 9, 17, 0, 20, 19))).toBeLessThan(toleranceMs);
    expect((before + 24 * 60 * minuteMs - after) / 1000).toBeCloseTo(88, -1);
  });

  // Source: pvlib's tests, set at Golden.
  it("is at 16:47:43 MST at Golden on 2 January 2015", () => {
    const sunset = sunsetAtMs(golden, Date.UTC(2015, 0, 2, 19), "America/Denver") ?? 0;
    expect(Math.abs(sunset - Date.UTC(2015, 0, 2, 23, 47, 43))).toBeLessThan(toleranceMs);
  });

  it("is null in the polar day and in the polar night", () => {
    const north = { latitudeDeg: 70, longitudeDeg: 25 };
    expect(sunsetAtMs(north, Date.UTC(2026, 5, 21, 16), "Europe/Oslo")).toBeNull();
    expect(sunsetAtMs(north, Date.UTC(2026, 11, 21, 16), "Europe/Oslo")).toBeNull();
  });

  it("is that of the local day, at any hour of it", () => {
    const zones = [
      ["Pacific/Kiritimati", { latitudeDeg: 1.9, longitudeDeg: -157.4 }],
      ["Pacific/Pago_Pago", { latitudeDeg: -14.3, longitudeDeg: -170.7 }],
      ["Asia/Shanghai", { latitudeDeg: 39.5, longitudeDeg: 76 }],
      ["Europe/Berlin", { latitudeDeg: 52.5, longitudeDeg: 13.4 }],
    ] as const;
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 365 * 24 * 4 }),
        ([zone, place], quarter) => {
          const atMs = Date.UTC(2026, 0, 1) + quarter * 15 * minuteMs;
          const sunset = sunsetAtMs(place, atMs, zone);
          const day = new Intl.DateTimeFormat("en-CA", { timeZone: zone, dateStyle: "short" });
          expect(sunset === null ? null : day.format(new Date(sunset))).toBe(day.format(new Date(atMs)));
        },
      ),
    );
  });
});
