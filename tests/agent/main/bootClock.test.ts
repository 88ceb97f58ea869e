import { describe, expect, it } from "vitest";
import { watchedClock } from "../../../agent/bootClock.ts";
import { handTime } from "../../support/handTime.ts";

function watched() {
  const time = handTime();
  const steps: number[] = [];
  return { time, steps, clock: watchedClock(time.clock, (stepMs) => steps.push(stepMs)) };
}

describe("watchedClock", () => {
  it("[T6] tells a step of the wall clock of more than two seconds, either way, once", () => {
    const { time, steps, clock } = watched();
    clock();
    time.stepWall(2_001);
    clock();
    clock();
    time.pass(60_000);
    clock();
    time.stepWall(-3_600_000);
    clock();
    expect(steps).toEqual([2_001, -3_600_000]);
  });

  it("[T6] tells nothing for two seconds or less", () => {
    const { time, steps, clock } = watched();
    time.stepWall(2_000);
    clock();
    expect(steps).toEqual([]);
  });

  it("[T6] adds up small partings since the boot began", () => {
    const { time, steps, clock } = watched();
    for (let i = 0; i < 5; i++) {
      time.pass(60_000);
      time.stepWall(500);
      clock();
    }
    expect(steps).toEqual([2_500]);
  });

  it("[T6] tells a step before it gives the first reading after it", () => {
    const time = handTime();
    const order: string[] = [];
    const clock = watchedClock(time.clock, () => order.push("told"));
    time.stepWall(5_000);
    clock();
    order.push("given");
    expect(order).toEqual(["told", "given"]);
  });
});
