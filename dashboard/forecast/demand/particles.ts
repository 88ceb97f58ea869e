import { otherVariant, rowAt, type Curves } from "./curves.ts";
import type { Dice } from "./dice.ts";

/** Guesses at the evening, each with its weight: parallel arrays, one place for each guess. */
export type Particles = {
  readonly count: number;
  /** Log of the evening's sessions. */
  readonly level: Float64Array;
  /** Slow and fast wandering of the log rate. */
  readonly slow: Float64Array;
  readonly fast: Float64Array;
  /** Row of the curves. */
  readonly row: Uint16Array;
  readonly regime: Uint8Array;
  /** 1: a rush before the close. */
  readonly endRush: Uint8Array;
  /** Log of the booth's limit over the one read from the data. */
  readonly limit: Float64Array;
  /** Sessions put off by stops that will come yet. */
  readonly waiting: Float64Array;
  readonly logWeight: Float64Array;
};

export function emptyParticles(count: number): Particles {
  return {
    count,
    level: new Float64Array(count),
    slow: new Float64Array(count),
    fast: new Float64Array(count),
    row: new Uint16Array(count),
    regime: new Uint8Array(count),
    endRush: new Uint8Array(count),
    limit: new Float64Array(count),
    waiting: new Float64Array(count),
    logWeight: new Float64Array(count),
  };
}

/** The guesses at the given places, all of the same weight. */
export function pickParticles(from: Particles, places: Uint16Array): Particles {
  const picked = emptyParticles(places.length);
  for (let place = 0; place < places.length; place += 1) {
    const source = places[place]!;
    picked.level[place] = from.level[source]!;
    picked.slow[place] = from.slow[source]!;
    picked.fast[place] = from.fast[source]!;
    picked.row[place] = from.row[source]!;
    picked.regime[place] = from.regime[source]!;
    picked.endRush[place] = from.endRush[source]!;
    picked.limit[place] = from.limit[source]!;
    picked.waiting[place] = from.waiting[source]!;
  }
  return picked;
}

export function copyParticles(from: Particles): Particles {
  return {
    count: from.count,
    level: from.level.slice(),
    slow: from.slow.slice(),
    fast: from.fast.slice(),
    row: from.row.slice(),
    regime: from.regime.slice(),
    endRush: from.endRush.slice(),
    limit: from.limit.slice(),
    waiting: from.waiting.slice(),
    logWeight: from.logWeight.slice(),
  };
}

/** Weights that add up to 1. */
export function weightsOf({ logWeight, count }: Particles): Float64Array {
  let highest = -Infinity;
  for (let place = 0; place < count; place += 1) highest = Math.max(highest, logWeight[place]!);
  const weights = new Float64Array(count);
  let sum = 0;
  for (let place = 0; place < count; place += 1) {
    const weight = Math.exp(logWeight[place]! - highest);
    weights[place] = weight;
    sum += weight;
  }
  for (let place = 0; place < count; place += 1) weights[place]! /= sum;
  return weights;
}

/** Places drawn in proportion to their weights by one throw for all. Source: systematic resampling, Kitagawa 1996. */
export function drawPlaces(weights: Float64Array, wanted: number, thrown: number): Uint16Array {
  const places = new Uint16Array(wanted);
  let source = 0;
  let upTo = weights[0]!;
  for (let place = 0; place < wanted; place += 1) {
    const aim = (place + thrown) / wanted;
    while (upTo < aim && source < weights.length - 1) {
      source += 1;
      upTo += weights[source]!;
    }
    places[place] = source;
  }
  return places;
}

/** Kernel of the level after resampling, as a share of its spread. Source: Liu & West 2001; the share was fitted. */
const kernelShare = 0.12;
/** Spread that the level keeps even when a few guesses alone have survived. */
const leastKernelSd = 0.02;
const redrawRow = 0.01;
const redrawVariant = 0.05;

/** Draws the guesses anew by their weights when fewer than half of them still count. */
export function resampled(particles: Particles, curves: Curves, dice: Dice): Particles {
  const weights = weightsOf(particles);
  const { count } = particles;
  let squares = 0;
  let mean = 0;
  for (let place = 0; place < count; place += 1) {
    squares += weights[place]! ** 2;
    mean += weights[place]! * particles.level[place]!;
  }
  if (1 / squares >= count / 2) return particles;
  let variance = 0;
  for (let place = 0; place < count; place += 1)
    variance += weights[place]! * (particles.level[place]! - mean) ** 2;
  const drawn = pickParticles(particles, drawPlaces(weights, count, dice.uniform()));
  const keep = Math.sqrt(1 - kernelShare ** 2);
  const kernelSd = Math.max(leastKernelSd, kernelShare * Math.sqrt(variance));
  for (let place = 0; place < count; place += 1) {
    drawn.level[place] = mean + keep * (drawn.level[place]! - mean) + kernelSd * dice.normal();
    const thrown = dice.uniform();
    if (thrown < redrawRow) drawn.row[place] = rowAt(curves, dice.uniform());
    else if (thrown < redrawRow + redrawVariant)
      drawn.row[place] = otherVariant(curves, drawn.row[place]!, dice.uniform());
  }
  return drawn;
}
