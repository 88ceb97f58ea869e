import type { FanPoint, Outlook } from "@boothward/shared-types";
import type { DemandAhead } from "../demand/demandAhead.ts";
import { meanUntil } from "./alongDemand.ts";
import { courseUntil, reachedAtMs, type CoursePoint, type LoadedPaper } from "./paperCourse.ts";

type MediaOutlook = NonNullable<Outlook["media"]>;

/** How the loaded roll will do until a close. */
export type PaperAhead = Pick<MediaOutlook, "fan" | "emptyAtMs" | "leftAtClose" | "lastsChance">;

const hourMs = 3_600_000;

/** "Now" for a rate: long enough for a few groups. */
const nowMs = hourMs / 4;

/**
 * Sheets left until the close, when the roll is empty, and the chance that it lasts, from its course. After
 * the close nothing lies ahead: what is left stays, and it lasted.
 */
export function paperAhead(
  course: readonly CoursePoint[],
  paper: LoadedPaper,
  closeAtMs: number,
): PaperAhead {
  const toClose = courseUntil(course, closeAtMs);
  const last = toClose.at(-1);
  const { lowSheets: p10, sheetsLeft: p50, highSheets: p90 } = paper;
  return {
    fan: toClose.map(fanPoint),
    emptyAtMs: {
      p10: reachedAtMs(toClose, 0, 0.1),
      p50: reachedAtMs(toClose, 1, 0.5),
      p90: reachedAtMs(toClose, 2, 0.9),
    },
    leftAtClose: last === undefined ? { p10, p50, p90 } : { p10: last.p10, p50: last.p50, p90: last.p90 },
    lastsChance: 1 - (last?.emptyChances[1] ?? 0),
  };
}

export function fanPoint({ atMs, p10, p50, p90 }: CoursePoint): FanPoint {
  return { atMs, p10, p50, p90 };
}

/** Sheets an hour in the next quarter of an hour, or in the first after the opening; 0 at the close. */
export function sheetsPerHourNow(ahead: DemandAhead, openAtMs: number): number {
  const fromAtMs = Math.max(ahead.atMs, openAtMs);
  const toAtMs = Math.min(fromAtMs + nowMs, ahead.stepsAtMs.at(-1) ?? fromAtMs);
  if (toAtMs <= fromAtMs) return 0;
  return ((meanUntil(ahead, toAtMs) - meanUntil(ahead, fromAtMs)) * hourMs) / (toAtMs - fromAtMs);
}
