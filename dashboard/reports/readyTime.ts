import type { ReportPause, ReportTime } from "@boothward/shared-types";
import type { BookedTime } from "../booth/bookingWindows.ts";
import type { BoothState } from "../booth/boothState.ts";
import { fittedAt } from "../booth/fittedAt.ts";
import { worstKeywords } from "../booth/printerReasons.ts";
import { printingStops } from "../booth/printingStops.ts";
import { clipStretch, cutStretch, lengthOf, mergeStretches, type Stretch } from "./stretches.ts";

/** Agents say something each minute at least; so long a silence is no chance. */
const silentMs = 5 * 60_000;

/** A roll that was fitted during a stop, or so little after it, is why the booth stopped. */
const fittedWithinMs = 2 * 60_000;

export type ReadyTime = { readonly time: ReportTime; readonly pauses: readonly ReportPause[] };

/**
 * How much of what was promised the booth was ready. Promised are the open hours as extended, less breaks, on
 * instants. Of a stretch in which nothing was heard nothing is known, also not whether a stop went on: it is
 * neither ready nor stopped.
 *
 * `heard`: instants at which anything came from the booth, oldest first, by its own true time.
 */
export function readyTime(
  state: BoothState,
  held: BookedTime,
  bookedMs: number,
  heard: readonly number[],
  throughAtMs: number,
): ReadyTime {
  const hours = { fromAtMs: held.openAtMs, toAtMs: Math.min(held.closeAtMs, throughAtMs) };
  const breaks = breaksIn(state, held.breaks, hours);
  const packedDown = cutAll(clipStretch({ fromAtMs: held.toAtMs, toAtMs: Infinity }, hours), breaks);
  const unknown = cutAll(silences(heard, hours), [...breaks, ...packedDown]);
  const stops = stopsIn(state, hours).flatMap((stop) =>
    cutStretch(stop, [...breaks, ...packedDown, ...unknown]).map((part) => ({ ...stop, ...part })),
  );
  const lengths = {
    breaksMs: lengthOf(breaks),
    stoppedMs: lengthOf(stops),
    packedDownMs: lengthOf(packedDown),
    unknownMs: lengthOf(unknown),
  };
  const promisedMs = lengthOf([hours]) - lengths.breaksMs;
  const lostMs = lengths.stoppedMs + lengths.packedDownMs + lengths.unknownMs;
  const pause = (why: ReportPause["why"]) => (stretch: Stretch) => ({ ...stretch, why, reason: null });
  return {
    time: {
      ...lengths,
      ...{ bookedMs, overrunMs: held.closeAtMs - held.openAtMs - bookedMs, promisedMs },
      readyMs: promisedMs - lostMs,
    },
    pauses: [
      ...stops,
      ...breaks.map(pause("onBreak")),
      ...packedDown.map(pause("packedDown")),
      ...unknown.map(pause("unknown")),
    ].sort((a, b) => a.fromAtMs - b.fromAtMs),
  };
}

/** Stretches of the hours in which nothing was heard. */
export function silences(heard: readonly number[], hours: Stretch): Stretch[] {
  if (hours.toAtMs <= hours.fromAtMs) return [];
  const marks = [-Infinity, ...heard, Infinity];
  return marks.flatMap((atMs, at) => {
    const next = marks[at + 1];
    if (next === undefined) return [];
    // What would be said next may still be on its way at the end.
    const until = next === Infinity ? hours.toAtMs : next;
    return until - atMs <= silentMs ? [] : clipStretch({ fromAtMs: atMs, toAtMs: next }, hours);
  });
}

/** Breaks as planned, and as said on the evening. */
function breaksIn({ readiness }: BoothState, planned: readonly Stretch[], hours: Stretch): Stretch[] {
  const said = readiness.flatMap(({ to, atMs }, at) =>
    to === "onBreak" ? [{ fromAtMs: atMs, toAtMs: readiness[at + 1]?.atMs ?? Infinity }] : [],
  );
  return mergeStretches([...planned, ...said].flatMap((each) => clipStretch(each, hours)));
}

function stopsIn(state: BoothState, hours: Stretch): ReportPause[] {
  const fitted = fittedAt(state);
  return printingStops(state).flatMap((stop) => {
    const toAtMs = stop.toAtMs ?? Infinity;
    const seen = state.printing.stops.filter(
      (each) => each.fromAtMs < toAtMs && (each.toAtMs ?? Infinity) > stop.fromAtMs,
    );
    const reason = worstKeywords(seen.map((each) => each.reason).filter((each) => each !== "stopped"))[0];
    const isChange = fitted.some((atMs) => atMs >= stop.fromAtMs && atMs <= toAtMs + fittedWithinMs);
    const why = isChange ? ("rollChange" as const) : ("stopped" as const);
    return clipStretch({ fromAtMs: stop.fromAtMs, toAtMs }, hours).map((part) => ({
      ...part,
      ...{ why, reason: reason ?? "stopped" },
    }));
  });
}

function cutAll(stretches: readonly Stretch[], cuts: readonly Stretch[]): Stretch[] {
  return stretches.flatMap((stretch) => cutStretch(stretch, cuts));
}
