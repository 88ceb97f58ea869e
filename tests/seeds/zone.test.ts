import fc from "fast-check";
import { getPosition } from "suncalc";
import { expect, test } from "vitest";
import { venueAt, wholeHourZone } from "../../seeds/zone.ts";

const anyInstant = fc.integer({ min: Date.UTC(2025, 0, 1), max: Date.UTC(2035, 0, 1) });

const hourThere = (zone: string, atMs: number) =>
  Number(new Intl.DateTimeFormat("en", { timeZone: zone, hour: "numeric", hourCycle: "h23" }).format(atMs));

// Source: the tz database, as this computer's Intl carries it.
test("at any moment it is between 16:00 and 17:00 at the venue", () => {
  fc.assert(
    fc.property(anyInstant, (nowMs) => {
      expect(hourThere(venueAt(nowMs).zone, nowMs)).toBe(16);
    }),
  );
});

// The names of the tz database's Etc zones carry the sign of POSIX, west positive.
test("a zone three hours ahead of UTC is called Etc/GMT-3", () => {
  expect(wholeHourZone(3)).toBe("Etc/GMT-3");
  expect(hourThere("Etc/GMT-3", Date.UTC(2026, 5, 1, 12))).toBe(15);
  expect(wholeHourZone(-5)).toBe("Etc/GMT+5");
  expect(wholeHourZone(0)).toBe("Etc/GMT");
});

test("the sun is up there, on any day and at any hour", () => {
  fc.assert(
    fc.property(anyInstant, (nowMs) => {
      const { latitudeDeg, longitudeDeg } = venueAt(nowMs);
      const { altitude } = getPosition(new Date(nowMs), latitudeDeg, longitudeDeg);
      // Apparent altitude in degrees, by the sun library. Lowest at the equinoxes just before 17:00.
      expect(altitude).toBeGreaterThan(5);
      expect(altitude).toBeLessThan(60);
    }),
  );
});
