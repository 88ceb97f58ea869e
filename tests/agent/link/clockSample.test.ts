import { describe, expect, it } from "vitest";
import { completeSample, offsetOf, wallErrorOf } from "../../../agent/link/clockSample.ts";

/** Four timestamps as one sample; the wall clock at the end shows `wallMs`. */
function sample(t1: number, t2: number, t3: number, t4: number, wallMs = t4) {
  return completeSample({ t1MonoMs: t1, t2Ms: t2, t3Ms: t3 }, { monoMs: t4, wallMs });
}

// RFC 5905 section 8: theta = ((T2 - T1) + (T3 - T4)) / 2, delta = (T4 - T1) - (T3 - T2).
describe("[T1] the four timestamps", () => {
  it("give no offset and 100 ms of delay for equal clocks and 50 ms each way", () => {
    expect(offsetOf(sample(0, 50, 50, 100))).toEqual({ thetaMs: 0, deltaMs: 100 });
  });

  it("give 3000 and 120 for 1000, 4060, 4065, 1125", () => {
    expect(offsetOf(sample(1000, 4060, 4065, 1125))).toEqual({ thetaMs: 3000, deltaMs: 120 });
  });

  it("do not count the time the dashboard took to answer", () => {
    expect(offsetOf(sample(1000, 1050, 9050, 9100))).toEqual({ thetaMs: 0, deltaMs: 100 });
  });

  it("say that a wall clock is behind by what is missing from true time", () => {
    expect(wallErrorOf(sample(1000, 4060, 4065, 1125, 4125))).toBe(0);
    expect(wallErrorOf(sample(1000, 4060, 4065, 1125, 1125))).toBe(3000);
    expect(wallErrorOf(sample(1000, 4060, 4065, 1125, 9125))).toBe(-5000);
  });
});
