import type { DemandInput } from "./demandInput.ts";
import { curvesOf, type Curves, type LikelyShape } from "./curves.ts";
import { type EveningBins } from "./eveningBins.ts";
import { learnFromPast, type Learned } from "./learnFromPast.ts";
import { flatShape, startingShapes } from "./shapes.ts";

/** A wandering of the log rate that comes back to its mean: an Ornstein-Uhlenbeck process. */
export type Wander = { readonly sd: number; readonly tauMin: number };

/** What is believed of an evening before its first session. */
export type Belief = {
  readonly curves: Curves;
  readonly level: LevelBelief;
  readonly fast: Wander;
  readonly slow: Wander;
  /** Variance of a bin's count over its mean when the rate is known. */
  readonly overdispersion: number;
  readonly endRushChance: number;
  readonly sheets: { readonly mean: number; readonly sdShare: number };
  readonly basis: "learned" | "planned" | "blind";
};

/** Log of the evening's sessions: normal, with a share of wider guesses for evenings far off the plan. */
export type LevelBelief = {
  readonly mean: number;
  readonly sd: number;
  readonly wideShare: number;
  readonly wideSd: number;
};

/** Sheets a session where neither plan nor earlier evenings say. Common practice, no source. */
const usualSheets = 2;

/** All figures below were fitted on simulated evenings, unless a reason stands beside them. */
export function beliefOf(input: DemandInput, evening: EveningBins): Belief {
  const { plan } = input;
  const past = learnFromPast(input.past, plan.eventKind);
  const isKnown = plan.eventKind !== null && Object.hasOwn(startingShapes, plan.eventKind);
  const isTaught = past !== null && past.shapes.length > 0;
  const stated = plan.sheetsPerSession !== null && plan.sheetsPerSession > 0 ? plan.sheetsPerSession : null;
  const mean = stated ?? past?.sheetsPerSession ?? usualSheets;
  return {
    curves: curvesOf(likelyShapes(isKnown ? plan.eventKind : null, past), evening, past?.warpShare ?? 1),
    level: levelOf(input, past, mean, evening),
    fast: past?.fast ?? { sd: 0.33, tauMin: 22 },
    slow: past?.slow ?? (isKnown ? { sd: 0.25, tauMin: 110 } : { sd: 0.4, tauMin: 400 }),
    overdispersion: past?.fast ? 1.2 : 1.45,
    endRushChance: isKnown || isTaught ? 0.14 : 0.05,
    sheets: { mean, sdShare: stated === null && past?.sheetsPerSession == null ? 0.22 : 0.14 },
    basis: isTaught ? "learned" : isKnown || knownGuests(plan.guests) !== null ? "planned" : "blind",
  };
}

function knownGuests(guests: number | null): number | null {
  return guests !== null && guests > 0 && Number.isFinite(guests) ? guests : null;
}

/** A known kind is mostly as it is drawn; an unknown one mostly level. What earlier evenings taught goes before both. */
function likelyShapes(kind: string | null, past: Learned | null): readonly LikelyShape[] {
  const named = kind === null ? flatShape : (startingShapes[kind] ?? flatShape);
  const others = [flatShape, ...Object.values(startingShapes)].filter((shape) => shape !== named);
  const namedChance = kind === null ? 0.8 : 0.82;
  const drawn = [
    { shape: named, chance: namedChance },
    ...others.map((shape) => ({
      shape,
      chance: kind !== null && shape === flatShape ? 0.09 : (1 - namedChance) / others.length,
    })),
  ];
  if (past === null || past.shapes.length === 0) return drawn;
  const drawnTotal = drawn.reduce((sum, { chance }) => sum + chance, 0);
  return [
    ...past.shapes.map(({ shape, chance }) => ({ shape, chance: chance * past.shapesChance })),
    ...drawn.map(({ shape, chance }) => ({ shape, chance: (chance / drawnTotal) * (1 - past.shapesChance) })),
  ];
}

/** Sessions a guest over an evening, until earlier evenings say. Common practice, no source. */
const participation = 0.75;

function levelOf(
  { plan }: DemandInput,
  past: Learned | null,
  sheetsMean: number,
  evening: EveningBins,
): LevelBelief {
  const guests = knownGuests(plan.guests);
  const hours = (evening.closeAtMs - evening.openAtMs) / 3_600_000;
  if (past !== null && guests !== null && past.perGuest !== null)
    return { mean: past.perGuest.mean + Math.log(guests), sd: past.perGuest.sd, ...wide(past.perGuest.sd) };
  if (guests === null && past !== null)
    return { mean: past.perHour.mean + Math.log(hours), sd: past.perHour.sd, ...wide(past.perHour.sd) };
  if (guests !== null)
    return { mean: Math.log(participation * guests), sd: 0.42, wideShare: 0.3, wideSd: 0.95 };
  // People load about what they expect to need and a good part more; nobody loads more than two large rolls.
  if (plan.sheetsLoaded !== null && plan.sheetsLoaded > 0) {
    const loaded = Math.min(1400, Math.max(20, plan.sheetsLoaded));
    return { mean: Math.log((0.65 * loaded) / sheetsMean), sd: 0.5, wideShare: 0.3, wideSd: 1.1 };
  }
  return { mean: Math.log(18 * hours), sd: 0.7, wideShare: 0.3, wideSd: 1.3 };
}

/** Even an evening like those before may turn out quite another. */
function wide(sd: number): { wideShare: number; wideSd: number } {
  return { wideShare: 0.2, wideSd: Math.max(0.5, 2.5 * sd) };
}
