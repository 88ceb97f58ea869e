import { normalQuantile } from "./normal.ts";

/** Dice of one stream: the same key and number give the same throws on every computer. */
export type Dice = {
  /** Evenly from 0 up to but not 1. */
  readonly uniform: () => number;
  /** From the standard normal distribution, cut at +-3.8. */
  readonly normal: () => number;
};

const normalBits = 13;
const normals = Float64Array.from({ length: 1 << normalBits }, (_, place) =>
  normalQuantile((place + 0.5) / (1 << normalBits)),
);

/**
 * The stream of an event's bin, so that what is thrown for one bin does not depend on what was asked before.
 *
 * Source: the generator sfc32 of C. Doty-Humphrey's PractRand; the key is mixed by FNV-1a.
 */
export function diceOf(key: string, stream: number): Dice {
  let a = mixed(key, 0x811c9dc5);
  let b = mixed(key, 0x9e3779b9);
  let c = (stream * 0x85ebca6b) | 0;
  let counter = 1;
  const next = (): number => {
    const sum = (((a + b) | 0) + counter) | 0;
    counter = (counter + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let round = 0; round < 15; round += 1) next();
  return {
    uniform: () => next() / 0x1_0000_0000,
    normal: () => normals[next() >>> (32 - normalBits)]!,
  };
}

function mixed(key: string, seed: number): number {
  let hash = seed | 0;
  for (let place = 0; place < key.length; place += 1)
    hash = Math.imul(hash ^ key.charCodeAt(place), 0x01000193);
  return hash;
}
