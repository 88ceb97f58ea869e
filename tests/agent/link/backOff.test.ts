import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { backOffMs } from "../../../agent/link/backOff.ts";

describe("backOffMs", () => {
  it("[B2] doubles from half a second to half a minute", () => {
    const longest = Array.from({ length: 9 }, (_, tries) => backOffMs(tries, 1));
    expect(longest).toEqual([500, 1_000, 2_000, 4_000, 8_000, 16_000, 30_000, 30_000, 30_000]);
  });

  it("[B2] is a random share of that, from none of it to all", () => {
    fc.assert(
      fc.property(fc.nat(2_000), fc.double({ min: 0, max: 1, noNaN: true }), (tries, dice) => {
        expect(backOffMs(tries, dice)).toBe(dice * backOffMs(tries, 1));
        expect(backOffMs(tries, dice)).toBeLessThanOrEqual(30_000);
      }),
    );
  });
});
