import type { PastEvening } from "./demandInput.ts";
import type { Leeway, LikelyShape } from "./curves.ts";
import { pastWander, type PastWander } from "./pastWander.ts";
import type { Shape } from "./shapes.ts";

/** What earlier evenings of the kind teach. */
export type Learned = {
  /** Shapes with chances that add up to 1; none when no evening has quarter-hours. */
  readonly shapes: readonly LikelyShape[];
  /** Chance that the evening follows one of these and not a drawn one. */
  readonly shapesChance: number;
  /** Log of sessions a guest, and of sessions an hour. */
  readonly perGuest: LogBelief | null;
  readonly perHour: LogBelief;
  readonly sheetsPerSession: number | null;
  /** null: too few evenings to tell how the rate wanders. */
  readonly wander: PastWander | null;
};

/** Mean and spread of a logarithm, and how many evenings they come from. */
export type LogBelief = { readonly mean: number; readonly sd: number; readonly evenings: number };

const hourMs = 3_600_000;

/** With so many evenings the shape and its wandering are learned; with fewer they have a say. */
const enoughEvenings = 3;

/** Evenings before these are of another time, and cost time with every answer. */
const mostEvenings = 40;

/** What is learned from earlier evenings of this kind, or null when there are none. */
export function learnFromPast(past: readonly PastEvening[], eventKind: string | null): Learned | null {
  const evenings = past.filter((evening) => isUsable(evening, eventKind)).slice(-mostEvenings);
  if (evenings.length === 0) return null;
  const counted = evenings.filter(({ sheetsPer15Min }) => sum(sheetsPer15Min) > 0);
  const isEnough = counted.length >= enoughEvenings;
  const meanShape = smoothed(averageShape(counted.map(eveningShape)), counted.length);
  const withGuests = evenings.filter(({ guests }) => guests !== null && guests > 0);
  const sheets = sum(evenings.map((evening) => evening.sheets));
  return {
    shapes: counted.length === 0 ? [] : pastShapes(counted.map(eveningShape), meanShape),
    shapesChance: isEnough ? 0.92 : counted.length === 2 ? 0.65 : 0.45,
    perGuest:
      withGuests.length === 0
        ? null
        : logBelief(
            withGuests.map((e) => Math.log(e.sessions / (e.guests ?? 1))),
            Math.log(0.75),
          ),
    perHour: logBelief(
      evenings.map(({ sessions, openAtMs, closeAtMs }) =>
        Math.log((sessions * hourMs) / (closeAtMs - openAtMs)),
      ),
      null,
    ),
    sheetsPerSession: sheets > 0 ? sheets / sum(evenings.map(({ sessions }) => sessions)) : null,
    wander: isEnough ? pastWander(counted, meanShape) : null,
  };
}

function isUsable({ eventKind, openAtMs, closeAtMs, sessions }: PastEvening, wanted: string | null): boolean {
  return eventKind === wanted && closeAtMs > openAtMs && sessions > 0;
}

function sum(numbers: readonly number[]): number {
  return numbers.reduce((total, next) => total + next, 0);
}

/** Evenings of a kind differ by about this share until enough were seen; it counts as so many of them. Fitted. */
const usualSpread = 0.2;
const spreadEvenings = 3;

/** Mean and spread of the next evening's logarithm, drawn towards what is usual. */
function logBelief(logs: readonly number[], usual: number | null): LogBelief {
  const usualWeight = usual === null ? 0 : 0.3;
  const mean = (sum(logs) + usualWeight * (usual ?? 0)) / (logs.length + usualWeight);
  const squares = sum(logs.map((log) => (log - mean) ** 2));
  const variance = (squares + spreadEvenings * usualSpread ** 2) / (logs.length + spreadEvenings);
  return { mean, sd: Math.sqrt(variance * (1 + 1 / logs.length)), evenings: logs.length };
}

const points = 61;

/** Heights of one evening at evenly spaced places, 1 on average. */
function eveningShape({ openAtMs, closeAtMs, sheetsPer15Min }: PastEvening): Shape {
  const quarters = (closeAtMs - openAtMs) / (hourMs / 4);
  const heights = Array.from({ length: points }, (_, point) => {
    const quarter = Math.min(Math.ceil(quarters) - 1, Math.floor((point / (points - 1)) * quarters));
    // The last quarter-hour may be shorter than the others.
    return (sheetsPer15Min[quarter] ?? 0) / Math.min(1, quarters - quarter);
  });
  return ofMeanOne(heights);
}

function ofMeanOne(shape: Shape): Shape {
  const mean = sum(shape) / shape.length;
  return mean > 0 ? shape.map((height) => height / mean) : shape.map(() => 1);
}

function averageShape(shapes: readonly Shape[]): Shape {
  return Array.from({ length: points }, (_, point) =>
    shapes.length === 0 ? 1 : sum(shapes.map((shape) => shape[point] ?? 0)) / shapes.length,
  );
}

/** Chances of the mean shape and, together, of the single evenings half blended with it. Fitted. */
const meanChance = 0.4;

/** How far an evening may differ from the mean of those before, and from a single one. Fitted. */
const meanLeeway: Leeway = { warp: 0, tilt: 0.25, contrast: 0 };
const singleLeeway: Leeway = { warp: 0.03, tilt: 0, contrast: 0 };

function pastShapes(evenings: readonly Shape[], meanShape: Shape): readonly LikelyShape[] {
  const singles = evenings.map((evening) => ({
    shape: blended(smoothed(evening, 1), meanShape),
    chance: (1 - meanChance) / evenings.length,
    leeway: singleLeeway,
  }));
  return [{ shape: meanShape, chance: meanChance, leeway: meanLeeway }, ...singles];
}

function blended(evening: Shape, meanShape: Shape): Shape {
  return meanShape.map((height, point) => 0.5 * height + 0.5 * (evening[point] ?? height));
}

/** Smoothed over a twentieth of the evening for one, less for the mean of many; never quite zero. */
function smoothed(shape: Shape, evenings: number): Shape {
  const width = (0.05 * (points - 1)) / Math.sqrt(Math.max(1, evenings / 3));
  const reach = Math.ceil(3 * width);
  const kernel = Array.from({ length: 2 * reach + 1 }, (_, at) =>
    Math.exp(-((at - reach) ** 2) / 2 / width ** 2),
  );
  const smooth = shape.map((_, point) => {
    let total = 0;
    let weight = 0;
    kernel.forEach((share, at) => {
      const height = shape[point + at - reach];
      if (height === undefined) return;
      total += share * height;
      weight += share;
    });
    return total / weight;
  });
  return ofMeanOne(smooth.map((height) => Math.max(0.02, height)));
}
