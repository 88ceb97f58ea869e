import { memberCount, membersPerMotion, pushSdOf, sensorVarOf } from "./grid.ts";
import type { SunOffer } from "./heatDrive.ts";
import type { MotionStep } from "./motionStep.ts";

/**
 * The bank of Kalman filters at one instant. Of each member: six means (air T, mass Tm, push q in C/min, how much
 * warmer the surroundings are than the outside figure, the gains of beam and sky in C/min), the upper triangle of
 * their covariance row by row, and the logarithm of its weight.
 */
export type Bank = {
  readonly means: Float64Array;
  readonly covariances: Float64Array;
  readonly logWeights: Float64Array;
};

export const meansEach = 6;
export const pairsEach = 21;
/** Places of the variances in a triangle. */
export const variance = { air: 0, mass: 6, push: 11, surroundings: 15, beam: 18, sky: 20 } as const;

export function copyBank({ means, covariances, logWeights }: Bank): Bank {
  return { means: means.slice(), covariances: covariances.slice(), logWeights: logWeights.slice() };
}

/** How far the surroundings' difference and the gains wander, squared, per minute. */
export const wander = {
  air: 0.003 ** 2,
  mass: 0.003 ** 2,
  surroundings: 0.03 ** 2,
  beam: 0.004 ** 2,
  sky: 0.0015 ** 2,
} as const;

/** Moves members on by one step, in place, while `outsideC` and the sun are held: all of them, or those named. */
export function stepBank(
  { means, covariances }: Bank,
  steps: readonly MotionStep[],
  outsideC: number,
  sun: SunOffer,
  members: Int32Array = everyMember,
): void {
  for (const member of members) {
    const step = steps[Math.floor(member / membersPerMotion)]!;
    stepMeans(means, member * meansEach, step, outsideC, sun);
    stepCovariance(covariances, member * pairsEach, step, sun);
    addNoise(covariances, member * pairsEach, step, pushSdOf[member]!);
  }
}

const everyMember = Int32Array.from({ length: memberCount }, (_, member) => member);

function stepMeans(means: Float64Array, at: number, step: MotionStep, outsideC: number, sun: SunOffer): void {
  const [air, mass, push] = [means[at]!, means[at + 1]!, means[at + 2]!];
  const aroundC = outsideC + means[at + 3]!;
  const heat = means[at + 4]! * sun.beam + means[at + 5]! * sun.sky;
  means[at] =
    step.airFromAir * air +
    step.airFromMass * mass +
    step.airFromPush * push +
    step.airFromOutside * aroundC +
    step.airFromHeat * heat;
  means[at + 1] =
    step.massFromAir * air +
    step.massFromMass * mass +
    step.massFromPush * push +
    step.massFromOutside * aroundC +
    step.massFromHeat * heat;
  means[at + 2] = step.pushLeft * push;
}

/** F P F' with the two full rows and the one short row of F written out. */
function stepCovariance(p: Float64Array, o: number, step: MotionStep, sun: SunOffer): void {
  const { airFromAir: a0, airFromMass: a1, airFromPush: a2, airFromOutside: a3 } = step;
  const { massFromAir: b0, massFromMass: b1, massFromPush: b2, massFromOutside: b3, pushLeft: c } = step;
  const a4 = step.airFromHeat * sun.beam;
  const a5 = step.airFromHeat * sun.sky;
  const b4 = step.massFromHeat * sun.beam;
  const b5 = step.massFromHeat * sun.sky;
  const p00 = p[o]!,
    p01 = p[o + 1]!,
    p02 = p[o + 2]!,
    p03 = p[o + 3]!,
    p04 = p[o + 4]!,
    p05 = p[o + 5]!;
  const p11 = p[o + 6]!,
    p12 = p[o + 7]!,
    p13 = p[o + 8]!,
    p14 = p[o + 9]!,
    p15 = p[o + 10]!;
  const p22 = p[o + 11]!,
    p23 = p[o + 12]!,
    p24 = p[o + 13]!,
    p25 = p[o + 14]!;
  const p33 = p[o + 15]!,
    p34 = p[o + 16]!,
    p35 = p[o + 17]!,
    p44 = p[o + 18]!,
    p45 = p[o + 19]!,
    p55 = p[o + 20]!;
  const r0 = a0 * p00 + a1 * p01 + a2 * p02 + a3 * p03 + a4 * p04 + a5 * p05;
  const r1 = a0 * p01 + a1 * p11 + a2 * p12 + a3 * p13 + a4 * p14 + a5 * p15;
  const r2 = a0 * p02 + a1 * p12 + a2 * p22 + a3 * p23 + a4 * p24 + a5 * p25;
  const r3 = a0 * p03 + a1 * p13 + a2 * p23 + a3 * p33 + a4 * p34 + a5 * p35;
  const r4 = a0 * p04 + a1 * p14 + a2 * p24 + a3 * p34 + a4 * p44 + a5 * p45;
  const r5 = a0 * p05 + a1 * p15 + a2 * p25 + a3 * p35 + a4 * p45 + a5 * p55;
  const s0 = b0 * p00 + b1 * p01 + b2 * p02 + b3 * p03 + b4 * p04 + b5 * p05;
  const s1 = b0 * p01 + b1 * p11 + b2 * p12 + b3 * p13 + b4 * p14 + b5 * p15;
  const s2 = b0 * p02 + b1 * p12 + b2 * p22 + b3 * p23 + b4 * p24 + b5 * p25;
  const s3 = b0 * p03 + b1 * p13 + b2 * p23 + b3 * p33 + b4 * p34 + b5 * p35;
  const s4 = b0 * p04 + b1 * p14 + b2 * p24 + b3 * p34 + b4 * p44 + b5 * p45;
  const s5 = b0 * p05 + b1 * p15 + b2 * p25 + b3 * p35 + b4 * p45 + b5 * p55;
  p[o] = a0 * r0 + a1 * r1 + a2 * r2 + a3 * r3 + a4 * r4 + a5 * r5;
  p[o + 1] = b0 * r0 + b1 * r1 + b2 * r2 + b3 * r3 + b4 * r4 + b5 * r5;
  p[o + 2] = c * r2;
  p[o + 3] = r3;
  p[o + 4] = r4;
  p[o + 5] = r5;
  p[o + 6] = b0 * s0 + b1 * s1 + b2 * s2 + b3 * s3 + b4 * s4 + b5 * s5;
  p[o + 7] = c * s2;
  p[o + 8] = s3;
  p[o + 9] = s4;
  p[o + 10] = s5;
  p[o + 11] = c * c * p22;
  p[o + 12] = c * p23;
  p[o + 13] = c * p24;
  p[o + 14] = c * p25;
}

/** What wanders in the step. */
function addNoise(p: Float64Array, o: number, step: MotionStep, pushSd: number): void {
  const { minutes, airNoise, airPushNoise, pushNoise } = step;
  const perMin = pushSd * pushSd;
  p[o] = p[o]! + wander.air * minutes + perMin * airNoise;
  p[o + 2] = p[o + 2]! + perMin * airPushNoise;
  p[o + variance.mass] = p[o + variance.mass]! + wander.mass * minutes;
  p[o + variance.push] = p[o + variance.push]! + perMin * pushNoise;
  p[o + variance.surroundings] = p[o + variance.surroundings]! + wander.surroundings * minutes;
  p[o + variance.beam] = p[o + variance.beam]! + wander.beam * minutes;
  p[o + variance.sky] = p[o + variance.sky]! + wander.sky * minutes;
}

/** Adds to one of the variances of all members. */
export function openVariance(bank: Bank, place: number, by: number): void {
  for (let member = 0; member < memberCount; member += 1) {
    const at = member * pairsEach + place;
    bank.covariances[at] = bank.covariances[at]! + by;
  }
}

/** Degrees of freedom of the errors by which members are weighed: a far reading condemns none for good. */
const errorFreedom = 16;

/**
 * Takes one reading into all members, in place: `keep` is how much of the weights' past still counts, `worth` how much
 * this reading does.
 */
export function learnReading(bank: Bank, insideC: number, keep: number, worth: number): void {
  for (let member = 0; member < memberCount; member += 1) {
    const [at, o] = [member * meansEach, member * pairsEach];
    const error = insideC - bank.means[at]!;
    const spread = bank.covariances[o]! + sensorVarOf[member]!;
    bank.logWeights[member] =
      keep * bank.logWeights[member]! -
      worth *
        (0.5 * Math.log(spread) +
          ((errorFreedom + 1) / 2) * Math.log1p((error * error) / (spread * errorFreedom)));
    correct(bank, at, o, error, spread, sensorVarOf[member]!);
  }
  levelWeights(bank.logWeights);
}

function correct(
  { means, covariances: p }: Bank,
  at: number,
  o: number,
  error: number,
  spread: number,
  sensorVar: number,
): void {
  const h0 = p[o]!,
    h1 = p[o + 1]!,
    h2 = p[o + 2]!,
    h3 = p[o + 3]!,
    h4 = p[o + 4]!,
    h5 = p[o + 5]!;
  const share = error / spread;
  means[at] = means[at]! + h0 * share;
  means[at + 1] = means[at + 1]! + h1 * share;
  means[at + 2] = means[at + 2]! + h2 * share;
  means[at + 3] = means[at + 3]! + h3 * share;
  means[at + 4] = means[at + 4]! + h4 * share;
  means[at + 5] = means[at + 5]! + h5 * share;
  const held = [h0, h1, h2, h3, h4, h5];
  // The air's own row as a product: a difference would lose all its digits when the sensor is much surer than the bank.
  const left = sensorVar / spread;
  for (let column = 0; column < meansEach; column += 1) p[o + column] = held[column]! * left;
  let place = o + meansEach;
  for (let row = 1; row < meansEach; row += 1) {
    const share = held[row]! / spread;
    for (let column = row; column < meansEach; column += 1, place += 1)
      p[place] = p[place]! - share * held[column]!;
  }
}

/** The largest logarithm becomes 0. */
function levelWeights(logWeights: Float64Array): void {
  let most = -Infinity;
  for (const each of logWeights) if (each > most) most = each;
  for (let at = 0; at < logWeights.length; at += 1) logWeights[at] = logWeights[at]! - most;
}
