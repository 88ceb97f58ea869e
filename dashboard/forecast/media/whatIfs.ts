import type { WhatIf } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { stepAt } from "./alongDemand.ts";
import { paperAhead } from "./paperAhead.ts";
import { paperCourse, type LoadedPaper } from "./paperCourse.ts";
import { rollsToClose, type Aboard } from "./rollsToClose.ts";

/** How much longer the evening may be asked to go on, and in what steps. */
export const extra = { mostMin: 120, stepMin: 15 };

const minuteMs = 60_000;
const mostPoints = 40;

/**
 * What the paper would do if the close moved by 0 to 120 minutes, or each session took one print from now on.
 * `ahead` runs to the close and 120 minutes past it. Empty after the close.
 */
export function whatIfs(ahead: DemandAhead, paper: LoadedPaper, aboard: Aboard, closeAtMs: number): WhatIf[] {
  if (closeAtMs <= ahead.atMs) return [];
  return [false, true].flatMap((isOnePrint) => {
    const own = isOnePrint ? ahead.withSheetsPerSession(1, ahead.atMs) : ahead;
    const course = paperCourse(own, paper);
    return extraMinutes().map((extraMin) => {
      const untilAtMs = closeAtMs + extraMin * minuteMs;
      const { fan, ...rest } = paperAhead(course, paper, untilAtMs);
      const rolls = rollsToClose(own, stepAt(own, untilAtMs), paper, aboard);
      return { extraMin, isOnePrint, ...rest, rolls, fan: thinned(fan) };
    });
  });
}

function extraMinutes(): number[] {
  return Array.from({ length: extra.mostMin / extra.stepMin + 1 }, (_, at) => at * extra.stepMin);
}

/** Evenly thinned, the first and the last kept. */
function thinned<T>(points: readonly T[]): T[] {
  if (points.length <= mostPoints) return [...points];
  const every = (points.length - 1) / (mostPoints - 1);
  return Array.from({ length: mostPoints }, (_, at) => points.slice(Math.round(at * every))[0]).filter(
    (point) => point !== undefined,
  );
}
