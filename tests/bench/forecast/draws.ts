import { noise, type Dice } from "../../../seeds/dice.ts";

/** An exponential wait with this mean. */
export function drawWait(dice: Dice, mean: number): number {
  return -mean * Math.log(1 - dice());
}

/** A factor around 1: lognormal with mean 1 and this spread of its logarithm. */
export function drawFactor(dice: Dice, spread: number): number {
  return Math.exp(noise(dice, spread) - spread ** 2 / 2);
}

/**
 * A gamma draw with mean 1 and this share of it as standard deviation, below 1.
 *
 * **Source:** Marsaglia and Tsang, A simple method for generating gamma variables (2000).
 */
export function drawGamma(dice: Dice, spread: number): number {
  const shape = 1 / spread ** 2;
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = noise(dice, 1);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - dice()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return (d * v) / shape;
  }
}
