import { meansEach, pairsEach, variance, type Bank } from "./bank.ts";
import { memberCount, pushSdOf, sensorVarOf } from "./grid.ts";

/** How far off the surroundings may be from an outside reading, from the day curve, and from a guess, C. */
export const surroundingsSdC = { reading: 4, dayCurve: 5, guess: 6 } as const;
/** Where nothing is known of the outside it is taken to be so much colder, C. */
export const guessColderC = 3;
/** How far walls and furniture may be from the air at the first reading, C. */
const massSdC = 3;
/** Unexplained heating has been going on for so long at the first reading, min. */
const firstPushMin = 12;
/** Gains of the full beam and of a full sky, C/min, and how far off they may be. */
const beamGain = { mean: 0.06, sd: 0.1 } as const;
const skyGain = { mean: 0.06, sd: 0.08 } as const;

/** The bank after one reading, when nothing else is known of the booth. */
export function openBank(insideC: number, surroundingsSd: number): Bank {
  const bank: Bank = {
    means: new Float64Array(memberCount * meansEach),
    covariances: new Float64Array(memberCount * pairsEach),
    logWeights: new Float64Array(memberCount),
  };
  for (let member = 0; member < memberCount; member += 1) {
    const o = member * pairsEach;
    bank.means[member * meansEach + 4] = beamGain.mean;
    bank.means[member * meansEach + 5] = skyGain.mean;
    bank.covariances[o + variance.beam] = beamGain.sd ** 2;
    bank.covariances[o + variance.sky] = skyGain.sd ** 2;
  }
  restart(bank, insideC, surroundingsSd);
  return bank;
}

/** Begins anew at a reading, in place, but for what was learned of the gains and of the members. */
export function restart(bank: Bank, insideC: number, surroundingsSd: number): void {
  for (let member = 0; member < memberCount; member += 1) {
    const [at, o] = [member * meansEach, member * pairsEach];
    const { means, covariances } = bank;
    [means[at], means[at + 1], means[at + 2], means[at + 3]] = [insideC, insideC, 0, 0];
    const beamAndSky = [
      covariances[o + variance.beam]!,
      covariances[o + 19]!,
      covariances[o + variance.sky]!,
    ] as const;
    covariances.fill(0, o, o + pairsEach);
    covariances[o + variance.air] = sensorVarOf[member]!;
    covariances[o + variance.mass] = massSdC ** 2;
    covariances[o + variance.push] = firstPushMin * pushSdOf[member]! ** 2;
    covariances[o + variance.surroundings] = surroundingsSd ** 2;
    [covariances[o + variance.beam], covariances[o + 19], covariances[o + variance.sky]] = beamAndSky;
  }
}

/** The surroundings' difference from a new outside figure, in place: forgotten, or shifted so that they stay. */
export function forgetSurroundings(bank: Bank, sd: number): void {
  for (let member = 0; member < memberCount; member += 1) {
    const o = member * pairsEach;
    bank.means[member * meansEach + 3] = 0;
    for (const place of [3, 8, 12, 16, 17]) bank.covariances[o + place] = 0;
    bank.covariances[o + variance.surroundings] = sd ** 2;
  }
}

export function shiftSurroundings(bank: Bank, byC: number): void {
  for (let member = 0; member < memberCount; member += 1)
    bank.means[member * meansEach + 3] = bank.means[member * meansEach + 3]! + byC;
}
