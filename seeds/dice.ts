/** A source of numbers from 0 up to, not including, 1. */
export type Dice = () => number;

/**
 * Dice that fall the same way for the same seed and purpose. Each purpose has its own stream, so that
 * one more temperature reading does not change who comes to the booth.
 *
 * **Source:** mulberry32 (public domain) over an FNV-1a hash of seed and purpose.
 */
export function seededDice(seed: number, purpose: string): Dice {
  return mulberry32(hashOf(`${String(seed)}/${purpose}`));
}

/** The generator itself: 32 bits of state, period 2^32, good enough to draw guests with. */
export function mulberry32(seed: number): Dice {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296;
  };
}

/** FNV-1a, 32 bits, over the text's UTF-16 units. */
function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash;
}

/** A number between two bounds. */
export function between(dice: Dice, low: number, high: number): number {
  return low + (high - low) * dice();
}

/** One of the values, as often as its weight says. Throws when there is none with a weight above 0. */
export function pick<T>(dice: Dice, weighted: readonly (readonly [T, number])[]): T {
  const total = weighted.reduce((sum, [, weight]) => sum + weight, 0);
  let left = dice() * total;
  for (const [value, weight] of weighted) {
    left -= weight;
    if (left < 0) return value;
  }
  throw new Error(`no value to pick: the weights add up to ${String(total)}`);
}

/** A normally distributed deviation with this spread. **Source:** Box and Muller's transform. */
export function noise(dice: Dice, spread: number): number {
  return spread * Math.sqrt(-2 * Math.log(1 - dice())) * Math.cos(2 * Math.PI * dice());
}
