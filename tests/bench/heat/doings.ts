import { between, type Dice } from "../../../seeds/dice.ts";
import type { Doings } from "./simulateCase.ts";

/** Printers and computers, and a few guests at a time. */
export const machines: Doings = (dice) => {
  const standing = between(dice, 100, 600);
  let guests = 0;
  return () => {
    guests += guests > 0 && dice() < 0.25 ? -1 : 0;
    guests += dice() < 0.15 ? 1 : 0;
    return { heatW: standing + 90 * guests, doorM2: 0 };
  };
};

/** A door that stands open now and then, for minutes or for an hour. */
export const doors: Doings = (dice) => {
  const [rate, length] = [between(dice, 1 / 120, 1 / 30), between(dice, 3, 40)];
  const wideM2 = between(dice, 0.4, 1.8);
  let openMin = 0;
  return () => {
    if (openMin <= 0 && dice() < rate) openMin = -length * Math.log(1 - dice());
    openMin -= 1;
    return { heatW: 0, doorM2: openMin > 0 ? wideM2 : 0 };
  };
};

/** A cooler with a thermostat that is switched on and off by people. */
export const cooling: Doings = (dice) => {
  const [powerW, aimC, bandC] = [between(dice, 900, 3000), between(dice, 21, 27), between(dice, 0.5, 1.5)];
  const switches = between(dice, 1 / 300, 1 / 90);
  let [isOn, runs] = [dice() < 0.5, false];
  return ({ air }) => {
    if (dice() < switches) isOn = !isOn;
    if (air > aimC + bandC) runs = true;
    if (air < aimC - bandC) runs = false;
    return { heatW: isOn && runs ? -powerW : 0, doorM2: 0 };
  };
};

/** Heated by a timetable in winter, aired now and then. */
export const room =
  (winter: boolean): Doings =>
  (dice) => {
    const [dayC, nightC, powerW] = [between(dice, 19, 22), between(dice, 15, 18), between(dice, 900, 2200)];
    const [from, to] = [between(dice, 5, 8), between(dice, 20, 23)];
    let [runs, airedMin, people] = [0, 0, 0];
    return ({ air }, _, hour) => {
      const aimC = hour > from && hour < to ? dayC : nightC;
      // A valve that follows slowly.
      runs += (Math.max(0, Math.min(1, (aimC - air) / 1.2)) - runs) / 15;
      if (airedMin <= 0 && hour > 7 && hour < 22 && dice() < 1 / 500) airedMin = between(dice, 5, 30);
      airedMin -= 1;
      if (dice() < 1 / 90) people = hour > 7 && hour < 23 ? Math.floor(dice() * 4) : 0;
      return {
        heatW: (winter ? powerW * runs : 0) + 90 * people + 60,
        doorM2: airedMin > 0 ? 0.3 : 0,
      };
    };
  };

/** People come and go; in working hours a plant holds the air by switching. */
export const office: Doings = (dice) => {
  const [aimC, bandC, powerW] = [
    between(dice, 20.5, 23.5),
    between(dice, 0.2, 0.8),
    between(dice, 800, 2500),
  ];
  const [from, to, most] = [between(dice, 6, 9), between(dice, 16, 19), 1 + Math.floor(dice() * 6)];
  let [plant, people] = [0, 0];
  return ({ air }, _, hour) => {
    const works = hour > from && hour < to;
    if (dice() < 1 / 20) people = works ? Math.floor(dice() * (most + 1)) : 0;
    if (!works) plant = 0;
    else if (air < aimC - bandC) plant = 1;
    else if (air > aimC + bandC) plant = -1;
    else if (Math.abs(air - aimC) < 0.1 * bandC) plant = 0;
    return { heatW: plant * powerW + 180 * people, doorM2: 0 };
  };
};

/** Vents that open by degrees above a temperature, and a heater below another. */
export const vents =
  (fromC: number): Doings =>
  (dice) => {
    const [widestM2, nightC, powerW] = [between(dice, 2, 12), between(dice, 8, 16), between(dice, 0, 9000)];
    let [open, heats] = [0, 0];
    return ({ air }) => {
      open += (Math.max(0, Math.min(1, (air - fromC) / 4)) - open) / 5;
      heats += (Math.max(0, Math.min(1, (nightC - air) / 1.5)) - heats) / 8;
      return { heatW: powerW * heats, doorM2: widestM2 * open };
    };
  };

/** Several at once: their heat and their doors add up. */
export function together(...all: readonly Doings[]): Doings {
  return (dice: Dice) => {
    const each = all.map((doings) => doings(dice));
    return (...now) =>
      each
        .map((doing) => doing(...now))
        .reduce((sum, one) => ({ heatW: sum.heatW + one.heatW, doorM2: sum.doorM2 + one.doorM2 }));
  };
}
