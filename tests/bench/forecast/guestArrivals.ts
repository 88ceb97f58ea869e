import { between, type Dice } from "../../../seeds/dice.ts";
import { drawGamma, drawWait } from "./draws.ts";
import type { Shape } from "./eveningShape.ts";

/** A stretch of the evening, as shares of it, in which that many times the usual guests come. */
export type Bend = { readonly from: number; readonly to: number; readonly times: number };

/** Guests do not come one by one: the first of a bunch draws others along. */
const meanBunch = 1.45;
const bunchSpreadMs = 150_000;
/** The mood of the room changes about so often, and by so much. */
const moodMs = 25 * 60_000;
const moodSpread = 0.3;

/**
 * When groups of guests come to the booth, in ms from the opening and in order: bunches at random under a
 * shape, its bends and the room's mood. `groups` is how many come on average where nothing bends.
 */
export function guestArrivals(
  shape: Shape,
  groups: number,
  lengthMs: number,
  bends: readonly Bend[],
  dice: Dice,
): number[] {
  const mood = moods(lengthMs, dice);
  const minutes = Math.round(lengthMs / 60_000);
  const arrivals: number[] = [];
  let untilBunch = drawWait(dice, 1);
  for (let minute = 0; minute < minutes; minute += 1) {
    const x = (minute + 0.5) / minutes;
    const usual = ((shape[Math.floor(x * shape.length)] ?? 0) * shape.length * groups) / minutes;
    const expected = (usual * bent(bends, x) * mood(minute * 60_000)) / meanBunch;
    let left = expected;
    while (untilBunch <= left) {
      left -= untilBunch;
      untilBunch = drawWait(dice, 1);
      arrivals.push(...bunch(minute * 60_000 + between(dice, 0, 60_000), dice));
    }
    untilBunch -= left;
  }
  return arrivals.filter((atMs) => atMs < lengthMs).sort((a, b) => a - b);
}

function bunch(atMs: number, dice: Dice): number[] {
  const comers = [atMs];
  while (dice() < 1 - 1 / meanBunch) comers.push(atMs + drawWait(dice, bunchSpreadMs));
  return comers;
}

function bent(bends: readonly Bend[], x: number): number {
  return bends.reduce((times, bend) => (x >= bend.from && x < bend.to ? times * bend.times : times), 1);
}

/** Gamma knots, straight lines between them. */
function moods(lengthMs: number, dice: Dice): (atMs: number) => number {
  const knots = Array.from({ length: Math.ceil(lengthMs / moodMs) + 2 }, () => drawGamma(dice, moodSpread));
  return (atMs) => {
    const at = atMs / moodMs;
    const before = Math.floor(at);
    const [low = 1, high = 1] = [knots[before], knots[before + 1]];
    return low + (at - before) * (high - low);
  };
}
