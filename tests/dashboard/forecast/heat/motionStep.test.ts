import { describe, expect, it } from "vitest";
import { motions } from "../../../../dashboard/forecast/heat/grid.ts";
import { motionStep, type MotionStep } from "../../../../dashboard/forecast/heat/motionStep.ts";

/** The model's equations in steps of a hundredth of a minute, as they are written, for the closed form to meet. */
function byEuler({ outwardMin, innerMin, pushMin }: (typeof motions)[number], minutes: number, start: State) {
  let { air, mass, push } = start;
  const h = 0.002;
  for (let at = 0; at < minutes / h; at += 1) {
    const dAir = (mass - air) / innerMin + (start.outside - air) / outwardMin + push + start.heat;
    const dMass = (0.3 * (air - mass)) / innerMin + (0.15 * (start.outside - mass)) / outwardMin;
    [air, mass, push] = [air + h * dAir, mass + h * dMass, push - (h * push) / pushMin];
  }
  return { air, mass, push };
}

type State = { air: number; mass: number; push: number; outside: number; heat: number };

function byStep(step: MotionStep, { air, mass, push, outside, heat }: State) {
  return {
    air:
      step.airFromAir * air +
      step.airFromMass * mass +
      step.airFromPush * push +
      step.airFromOutside * outside +
      step.airFromHeat * heat,
    mass:
      step.massFromAir * air +
      step.massFromMass * mass +
      step.massFromPush * push +
      step.massFromOutside * outside +
      step.massFromHeat * heat,
    push: step.pushLeft * push,
  };
}

describe("a step of the heat model", () => {
  const start: State = { air: 30, mass: 25, push: 0.2, outside: 20, heat: 0.1 };

  it.each(motions.map((motion) => [JSON.stringify(motion), motion] as const))(
    "meets its own equations in very small steps: %s",
    (_, motion) => {
      for (const minutes of [1, 5, 15]) {
        const [closed, small] = [byStep(motionStep(motion, minutes), start), byEuler(motion, minutes, start)];
        expect(closed.air).toBeCloseTo(small.air, 2);
        expect(closed.mass).toBeCloseTo(small.mass, 2);
        expect(closed.push).toBeCloseTo(small.push, 3);
      }
    },
  );

  it("does in two steps what it does in one of their length together, as the drive is held", () => {
    for (const motion of motions) {
      const [whole, half] = [motionStep(motion, 5), motionStep(motion, 2.5)];
      const twice = byStep(half, { ...start, ...byStep(half, start) });
      expect(twice.air).toBeCloseTo(byStep(whole, start).air, 9);
      expect(twice.mass).toBeCloseTo(byStep(whole, start).mass, 9);
    }
  });

  it("leaves all at one temperature where it is", () => {
    const still = { air: 22, mass: 22, push: 0, outside: 22, heat: 0 };
    for (const motion of motions) expect(byStep(motionStep(motion, 15), still).air).toBeCloseTo(22, 9);
  });

  it("comes to the outside in the end when nothing heats", () => {
    const cooling = { ...start, push: 0, heat: 0 };
    for (const motion of motions)
      expect(byStep(motionStep(motion, 1_000_000), cooling).air).toBeCloseTo(20, 6);
  });
});
