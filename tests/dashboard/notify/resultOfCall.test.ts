import { describe, expect, it } from "vitest";
import { retryAfter } from "../../../dashboard/notify/backOff.ts";
import { retryAfterMs } from "../../../dashboard/notify/resultOfCall.ts";

const atMs = Date.UTC(2026, 5, 20, 18);

describe("a Retry-After header", () => {
  // Source: RFC 9110 section 10.2.3: seconds, or a date.
  it.each([
    [null, null],
    ["120", 120_000],
    ["0", 0],
    ["Sat, 20 Jun 2026 18:01:30 GMT", 90_000],
    ["Sat, 20 Jun 2026 17:00:00 GMT", 0],
    ["soon", null],
    ["-5", null],
    ["999999", 3_600_000],
  ])("%j asks for %j ms", (header, ms) => {
    expect(retryAfterMs(header, atMs)).toBe(ms);
  });
});

describe("the wait between tries", () => {
  it("doubles from two seconds up to five minutes, half of it by the dice", () => {
    const waits = (dice: number) => [1, 2, 3, 8, 9, 60].map((tries) => retryAfter(tries, null, () => dice));
    expect(waits(0)).toEqual([1_000, 2_000, 4_000, 128_000, 150_000, 150_000]);
    expect(waits(1)).toEqual([2_000, 4_000, 8_000, 256_000, 300_000, 300_000]);
  });

  it("is never shorter than what was asked for", () => {
    expect(retryAfter(1, 60_000, () => 0)).toBe(60_000);
    expect(retryAfter(9, 1_000, () => 0)).toBe(150_000);
  });
});
