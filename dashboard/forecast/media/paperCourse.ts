import type { FanPoint } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { emptyChance } from "./alongDemand.ts";

/** What is on the roll, with the range that it may lie in. */
export type LoadedPaper = {
  readonly sheetsLeft: number;
  readonly lowSheets: number;
  readonly highSheets: number;
};

/** Sheets left at one instant in whole sheets, and the chance that the roll is empty by then. */
export type CoursePoint = FanPoint & {
  /** With the least, the likely and the most that may be on the roll now. */
  readonly emptyChances: readonly [low: number, middle: number, high: number];
};

const shares = [0.1, 0.5, 0.9] as const;

/**
 * How the loaded roll goes down, step by step of the forecast. Below 0 it falls short by so much. The range of
 * what is on it now widens the band: the little may meet a busy evening, the much a quiet one.
 *
 * What was used stays used and what ran out stays empty, however coarse the forecast's own figures are.
 */
export function paperCourse(ahead: DemandAhead, paper: LoadedPaper): readonly CoursePoint[] {
  const { lowSheets, sheetsLeft, highSheets } = paper;
  const used: [number, number, number] = [0, 0, 0];
  const empty: [number, number, number] = [0, 0, 0];
  return ahead.stepsAtMs.map((atMs, step) => {
    shares.forEach((share, at) => {
      used[at] = usedUpTo(ahead, step, share, used[at] ?? 0);
    });
    [lowSheets, sheetsLeft, highSheets].forEach((sheets, at) => {
      empty[at] = Math.max(empty[at] ?? 0, emptyChance(ahead, step, sheets));
    });
    const [little, middle, much] = used;
    return {
      ...{ atMs, p10: lowSheets - much, p50: sheetsLeft - middle, p90: highSheets - little },
      emptyChances: [empty[0], empty[1], empty[2]] as const,
    };
  });
}

/** More than any evening uses: a search for more ends here. */
const mostSheets = 1_000_000;

/**
 * Whole sheets, at least `from`, that are not exceeded up to a step with the chance `share`. Searched from the step
 * before on: a few looks at the distribution instead of a search over all of it.
 */
function usedUpTo(ahead: DemandAhead, step: number, share: number, from: number): number {
  if (ahead.atMost(step, from) >= share) return from;
  let low = from;
  let width = Math.max(1, Math.round(ahead.mean(step) - ahead.mean(Math.max(0, step - 1))));
  while (ahead.atMost(step, low + width) < share && width < mostSheets)
    [low, width] = [low + width, 2 * width];
  let high = low + width;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (ahead.atMost(step, middle) >= share) high = middle;
    else low = middle;
  }
  return high;
}

/** The course up to the close, the close itself last; nothing when the close has passed. */
export function courseUntil(course: readonly CoursePoint[], closeAtMs: number): readonly CoursePoint[] {
  const first = course[0];
  if (first === undefined || closeAtMs <= first.atMs) return [];
  const before = course.filter(({ atMs }) => atMs < closeAtMs);
  const last = course[before.length] ?? before.at(-1) ?? first;
  return [...before, { ...last, atMs: closeAtMs }];
}

/** When the chance of an empty roll first reaches this share, between the points by a straight line. */
export function reachedAtMs(course: readonly CoursePoint[], roll: 0 | 1 | 2, share: number): number | null {
  const at = course.findIndex(({ emptyChances }) => emptyChances[roll] >= share);
  const then = course[at];
  if (then === undefined) return null;
  const before = course[at - 1];
  if (before === undefined) return then.atMs;
  const [from, to] = [before.emptyChances[roll], then.emptyChances[roll]];
  return before.atMs + ((then.atMs - before.atMs) * (share - from)) / (to - from);
}
