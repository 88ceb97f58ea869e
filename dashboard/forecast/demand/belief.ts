import type { DemandInput } from "./demandInput.ts";
import { curvesOf, type Curves, type Leeway, type LikelyShape } from "./curves.ts";
import { type EveningBins } from "./eveningBins.ts";
import { learnFromPast, type Learned, type LogBelief } from "./learnFromPast.ts";
import type { Wander } from "./pastWander.ts";
import { flatShape, type Shape, startingShapes } from "./shapes.ts";

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
  readonly wideMean: number;
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
    curves: curvesOf(likelyShapes(isKnown ? plan.eventKind : null, past), evening),
    level: levelOf(input, past, mean, evening),
    fast: past?.wander?.fast ?? { sd: 0.33, tauMin: 22 },
    slow: past?.wander?.slow ?? (isKnown ? { sd: 0.3, tauMin: 110 } : { sd: 0.4, tauMin: 400 }),
    overdispersion: past?.wander?.overdispersion ?? 1.55,
    endRushChance: isKnown || isTaught ? 0.08 : 0.05,
    sheets: { mean, sdShare: stated === null && past?.sheetsPerSession == null ? 0.22 : 0.14 },
    basis: isTaught ? "learned" : isKnown || knownGuests(plan.guests) !== null ? "planned" : "blind",
  };
}

function knownGuests(guests: number | null): number | null {
  return guests !== null && guests > 0 && Number.isFinite(guests) ? guests : null;
}

/** How far evenings differ from a drawn shape, and from the level one that stands for all that is not known. */
const drawnLeeway: Leeway = { warp: 0.17, tilt: 0.3, contrast: 0.3 };
const unknownLeeway: Leeway = { warp: 0, tilt: 0.9, contrast: 0 };
const flatChance = 0.8;
const namedChance = 0.91;

/** A known kind is mostly as it is drawn; an unknown one mostly level. What earlier evenings taught goes before both. */
function likelyShapes(kind: string | null, past: Learned | null): readonly LikelyShape[] {
  const named = kind === null ? flatShape : (startingShapes[kind] ?? flatShape);
  const chance = kind === null ? flatChance : namedChance;
  const others = [flatShape, ...Object.values(startingShapes)].filter((shape) => shape !== named);
  const leewayOf = (shape: Shape) => (shape === flatShape ? unknownLeeway : drawnLeeway);
  const drawn = [
    { shape: named, chance, leeway: leewayOf(named) },
    ...others.map((shape) => ({
      shape,
      chance: (1 - chance) * (kind === null ? 0.2 : shape === flatShape ? 0.5 : 0.125),
      leeway: leewayOf(shape),
    })),
  ];
  if (past === null || past.shapes.length === 0) return drawn;
  return [
    ...past.shapes.map((one) => ({ ...one, chance: one.chance * past.shapesChance })),
    ...drawn.map((one) => ({ ...one, chance: one.chance * (1 - past.shapesChance) })),
  ];
}

/** Sessions a guest over an evening, until earlier evenings say. Common practice, no source. */
const participation = 0.71;

/** Of what is loaded so much is used, and how far that is off. */
const loadedUsed = 0.86;
const loadedSd = 0.42;

/** How far the sessions of a planned evening are off, and those of an evening quite other than planned. */
const planSd = 0.42;
const farSd = 0.75;
const farShare = 0.3;
/** Guests who stay away have no limit, those who come are limited by what a booth can take. */
const farShift = -0.3;

/** Nobody means to use more than two large rolls; common practice, no source. */
const mostLoaded = 1400;
/** Sessions an hour where nothing at all is known. Common practice, no source. */
const usualPerHour = 18;

function levelOf(
  { plan }: DemandInput,
  past: Learned | null,
  sheetsMean: number,
  evening: EveningBins,
): LevelBelief {
  const guests = knownGuests(plan.guests);
  const hours = (evening.closeAtMs - evening.openAtMs) / 3_600_000;
  if (past !== null && guests !== null && past.perGuest !== null) return asBefore(past.perGuest, guests);
  if (guests === null && past !== null) return asBefore(past.perHour, hours);
  if (guests !== null) return aboutPlan(participation * guests, planSd);
  if (plan.sheetsLoaded !== null && plan.sheetsLoaded > 0)
    return aboutPlan((loadedUsed * Math.min(mostLoaded, plan.sheetsLoaded)) / sheetsMean, loadedSd);
  return aboutPlan(usualPerHour * hours, 0.7);
}

function aboutPlan(sessions: number, sd: number): LevelBelief {
  const mean = Math.log(Math.max(1, sessions));
  return { mean, sd, wideShare: farShare, wideMean: mean + farShift, wideSd: farSd };
}

/** Even an evening like those before may turn out quite another; the fewer were seen, the likelier. Fitted. */
const otherOf = 0.6;
const mostOther = 0.3;

function asBefore({ mean, sd, evenings }: LogBelief, size: number): LevelBelief {
  const here = mean + Math.log(size);
  const wideShare = Math.min(mostOther, otherOf / evenings);
  return { mean: here, sd, wideShare, wideMean: here, wideSd: Math.max(0.5, 1.5 * sd) };
}
