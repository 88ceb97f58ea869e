import { motions, type Motion } from "./grid.ts";

/** What a member's temperatures become in one step, from those before and from what is held meanwhile. */
export type MotionStep = {
  readonly minutes: number;
  readonly airFromAir: number;
  readonly airFromMass: number;
  readonly massFromAir: number;
  readonly massFromMass: number;
  /** From unexplained heating at the beginning, and what is left of that. */
  readonly airFromPush: number;
  readonly massFromPush: number;
  readonly pushLeft: number;
  readonly airFromOutside: number;
  readonly massFromOutside: number;
  /** From 1 C/min of heating held through the step. */
  readonly airFromHeat: number;
  readonly massFromHeat: number;
  /** What unexplained heating adds in the step when it changes by 1 C/min in a minute: variances and covariance. */
  readonly airNoise: number;
  readonly airPushNoise: number;
  readonly pushNoise: number;
};

/** How strongly the mass follows the air and the outside, in parts of the air's own coupling. */
const massShare = 0.3;
const massOutward = 0.15;

/**
 * The grey-box model solved for a step of any length, exactly while what drives it is held:
 * dT = (Tm - T)/tm + (To - T)/te + q + heat; dTm = 0.3 (T - Tm)/tm + 0.15 (To - Tm)/te; dq = -q/tq.
 *
 * By the two eigenvalues of the pair (T, Tm), which are real and below zero.
 */
export function motionStep({ outwardMin, innerMin, pushMin }: Motion, minutes: number): MotionStep {
  const airRate = -(1 / innerMin + 1 / outwardMin);
  const massRate = -(massShare / innerMin + massOutward / outwardMin);
  const [toAir, toMass] = [1 / innerMin, massShare / innerMin];
  const middle = (airRate + massRate) / 2;
  const apart = Math.sqrt(((airRate - massRate) / 2) ** 2 + toAir * toMass);
  const [slow, fast] = [middle + apart, middle - apart];
  // Parts of the air's and the mass's answer that go with the slow rate; the rest goes with the fast one.
  const airSlow = (airRate - fast) / (slow - fast);
  const massSlow = (massRate - fast) / (slow - fast);
  const across = 1 / (slow - fast);
  const decay = [Math.exp(slow * minutes), Math.exp(fast * minutes)] as const;
  const held = [Math.expm1(slow * minutes) / slow, Math.expm1(fast * minutes) / fast] as const;
  const pushed = [overlap(slow, -1 / pushMin, minutes), overlap(fast, -1 / pushMin, minutes)] as const;
  const mix = (share: number, [ofSlow, ofFast]: readonly [number, number]) =>
    share * ofSlow + (1 - share) * ofFast;
  const cross = ([ofSlow, ofFast]: readonly [number, number]) => across * (ofSlow - ofFast);
  const [airFromAir, airFromMass] = [mix(airSlow, decay), toAir * cross(decay)];
  const [massFromAir, massFromMass] = [toMass * cross(decay), mix(massSlow, decay)];
  return {
    ...{ minutes, airFromAir, airFromMass, massFromAir, massFromMass },
    airFromPush: mix(airSlow, pushed),
    massFromPush: toMass * cross(pushed),
    pushLeft: Math.exp(-minutes / pushMin),
    // All at one temperature stays there, so what does not come from inside comes from outside.
    airFromOutside: 1 - airFromAir - airFromMass,
    massFromOutside: 1 - massFromAir - massFromMass,
    airFromHeat: mix(airSlow, held),
    massFromHeat: toMass * cross(held),
    ...pushNoiseOf(pushMin, minutes),
  };
}

/** Of an Ornstein-Uhlenbeck process and its integral, as if the air lost none of it within the step. */
function pushNoiseOf(pushMin: number, minutes: number) {
  const left = Math.exp(-minutes / pushMin);
  return {
    airNoise: pushMin ** 3 * (minutes / pushMin - 2 * (1 - left) + (1 - left * left) / 2),
    airPushNoise: (pushMin ** 2 / 2) * (1 - left) ** 2,
    pushNoise: (pushMin / 2) * (1 - left * left),
  };
}

/** The integral of exp(a (h - s)) exp(b s) from 0 to h. */
function overlap(a: number, b: number, h: number): number {
  const x = (a - b) * h;
  if (Math.abs(x) > 1) return (Math.exp(a * h) - Math.exp(b * h)) / (a - b);
  // Two rates that are alike: their difference would have no digits left.
  return Math.exp(b * h) * h * (x === 0 ? 1 : Math.expm1(x) / x);
}

/** The step of each motion. */
export function motionSteps(minutes: number): readonly MotionStep[] {
  return motions.map((motion) => motionStep(motion, minutes));
}
