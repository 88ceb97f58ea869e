import { describe, expect, it } from "vitest";
import { outsideFromHigh } from "../../../../dashboard/forecast/heat/outsideFromHigh.ts";

const greenwich = { latitudeDeg: 51.5, longitudeDeg: 0 };
const at = (hour: number) => Date.UTC(2025, 6, 1) + hour * 3_600_000;

// The shares of the day's range are those of the ASHRAE daily profile (from memory); a range of 10 C is common
// practice, no source.
describe("the air outside from the day's high", () => {
  it("is the high in the early afternoon by the sun, and 10 C less at five in the morning", () => {
    expect(outsideFromHigh(31, greenwich, at(14))).toBe(31);
    expect(outsideFromHigh(31, greenwich, at(15))).toBe(31);
    expect(outsideFromHigh(31, greenwich, at(5))).toBe(21);
    expect(outsideFromHigh(31, greenwich, at(9))).toBeCloseTo(27.5 - 2, 6);
  });

  it("never passes the high, and has no jump from one minute to the next", () => {
    for (let minute = 0; minute < 1440; minute += 1) {
      const [now, next] = [at(minute / 60), at((minute + 1) / 60)].map((ms) =>
        outsideFromHigh(31, greenwich, ms),
      );
      expect(now).toBeLessThanOrEqual(31);
      expect(Math.abs(now! - next!)).toBeLessThan(0.05);
    }
  });

  it("follows the sun and not the clock: 90 degrees west it comes six hours later", () => {
    const denver = { latitudeDeg: 40, longitudeDeg: -90 };
    expect(outsideFromHigh(31, denver, at(18.5))).toBeCloseTo(outsideFromHigh(31, greenwich, at(12.5)), 9);
  });
});
