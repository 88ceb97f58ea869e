import { normalBelow, normalQuantile } from "../demand/normal.ts";
import { meansEach, pairsEach, type Bank } from "./bank.ts";
import { logPriorOf, memberCount, sensorVarOf } from "./grid.ts";

/** What the bank says of a reading: normal distributions with weights that add up to 1, and their whole's figures. */
export type Mixture = {
  readonly weights: Float64Array;
  readonly means: Float64Array;
  readonly sds: Float64Array;
  readonly meanC: number;
  readonly sdC: number;
};

/** Members with less weight than this in all are left out of what is said, as nothing comes of them. */
const leastWeight = 1e-4;

/** The members that count and their weights. */
export type Voices = { readonly members: Int32Array; readonly weights: Float64Array };

export function voicesOf({ logWeights }: Bank): Voices {
  const shares = new Float64Array(memberCount);
  let sum = 0;
  for (let member = 0; member < memberCount; member += 1) {
    const share = Math.exp(logWeights[member]! + logPriorOf[member]!);
    shares[member] = share;
    sum += share;
  }
  const members: number[] = [];
  let heard = 0;
  for (let member = 0; member < memberCount; member += 1) {
    if (shares[member]! <= leastWeight * sum) continue;
    members.push(member);
    heard += shares[member]!;
  }
  const weights = Float64Array.from(members, (member) => shares[member]! / heard);
  return { members: Int32Array.from(members), weights };
}

/** What those members say of a reading taken now. */
export function mixtureOf(bank: Bank, { members, weights }: Voices): Mixture {
  const means = new Float64Array(members.length);
  const sds = new Float64Array(members.length);
  let [meanC, square] = [0, 0];
  for (let at = 0; at < members.length; at += 1) {
    const member = members[at]!;
    const mean = bank.means[member * meansEach]!;
    const varC2 = bank.covariances[member * pairsEach]! + sensorVarOf[member]!;
    means[at] = mean;
    sds[at] = Math.sqrt(varC2);
    meanC += weights[at]! * mean;
  }
  for (let at = 0; at < means.length; at += 1)
    square += weights[at]! * (sds[at]! ** 2 + (means[at]! - meanC) ** 2);
  return { weights, means, sds, meanC, sdC: Math.sqrt(square) };
}

/** Chance of a reading below `atC`. */
export function chanceBelow({ weights, means, sds }: Mixture, atC: number): number {
  let chance = 0;
  for (let at = 0; at < weights.length; at += 1)
    chance += weights[at]! * normalBelow((atC - means[at]!) / sds[at]!);
  return chance;
}

/** Close enough to the share that is asked for. */
const nearShare = 1e-4;
const mostRounds = 40;

/** The reading that is stayed below with chance `share`, C: by Newton's steps, halving where one would leave the bracket. */
export function mixtureQuantile(mixture: Mixture, share: number): number {
  const { meanC, sdC } = mixture;
  let [low, high] = [meanC - 8 * sdC, meanC + 8 * sdC];
  let at = meanC + sdC * normalQuantile(share);
  for (let round = 0; round < mostRounds; round += 1) {
    const over = chanceBelow(mixture, at) - share;
    if (Math.abs(over) < nearShare) break;
    if (over < 0) low = at;
    else high = at;
    const next = at - over / densityAt(mixture, at);
    at = next > low && next < high ? next : (low + high) / 2;
  }
  return at;
}

function densityAt({ weights, means, sds }: Mixture, atC: number): number {
  let density = 0;
  for (let at = 0; at < weights.length; at += 1) {
    const z = (atC - means[at]!) / sds[at]!;
    density += (weights[at]! / sds[at]!) * Math.exp(-0.5 * z * z);
  }
  return density / Math.sqrt(2 * Math.PI);
}
