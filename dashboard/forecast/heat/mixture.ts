import { normalBelow } from "../demand/normal.ts";
import { meansEach, pairsEach, type Bank } from "./bank.ts";
import { memberCount, sensorVarOf } from "./grid.ts";

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
  let sum = 0;
  for (const each of logWeights) sum += Math.exp(each);
  const members: number[] = [];
  for (let member = 0; member < memberCount; member += 1)
    if (Math.exp(logWeights[member]!) > leastWeight * sum) members.push(member);
  const shares = members.map((member) => Math.exp(logWeights[member]!));
  const heard = shares.reduce((all, share) => all + share, 0);
  return { members: Int32Array.from(members), weights: Float64Array.from(shares, (share) => share / heard) };
}

/** What those members say of a reading taken now. */
export function mixtureOf(bank: Bank, { members, weights }: Voices): Mixture {
  const means = new Float64Array(members.length);
  const sds = new Float64Array(members.length);
  let [meanC, square] = [0, 0];
  members.forEach((member, at) => {
    const mean = bank.means[member * meansEach]!;
    const varC2 = bank.covariances[member * pairsEach]! + sensorVarOf[member]!;
    means[at] = mean;
    sds[at] = Math.sqrt(varC2);
    meanC += weights[at]! * mean;
  });
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

/** The reading that is stayed below with chance `share`, C, by halving. */
export function mixtureQuantile(mixture: Mixture, share: number): number {
  const reachC = 8 * mixture.sdC;
  let [low, high] = [mixture.meanC - reachC, mixture.meanC + reachC];
  // 16 sd wide at first: after 20 halvings off by 0.00002 sd.
  for (let round = 0; round < 20; round += 1) {
    const middle = (low + high) / 2;
    if (chanceBelow(mixture, middle) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
