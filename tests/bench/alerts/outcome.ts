import type { Matter } from "@boothward/shared-types";
import { compareSeverity } from "../../../dashboard/alerts/alert.ts";
import type { Truth } from "./evening.ts";
import type { Played, Raised } from "./playEvening.ts";
import { blindOf, isBlind } from "./truths.ts";

/** What came of one evening's alerts, held against what was so. */
export type Outcome = {
  readonly told: readonly Said[];
  readonly missed: readonly Truth[];
  readonly falseAlarms: readonly Raised[];
  readonly falseForecasts: readonly Raised[];
  /** Forecasts that came true, each with how long before it was said. */
  readonly foretold: readonly { readonly matter: Matter; readonly leadMin: number }[];
};

/** Something true that was said, and how long after it began. */
export type Said = { readonly truth: Truth; readonly delayMin: number };

/** Said so long after its end it is still of it. */
const graceMin = 3;
/** Heat that was called an hour ahead may come a little later. */
const heatComesWithinMin = 90;
/** The sun is announced half an hour before. */
const sunComesWithinMin = 35;

export function outcomeOf(played: Played): Outcome {
  const { raised, evening, truths } = played;
  const counted = truths.filter((truth) => truth.isSlight !== true && !isBlind(truth, blindOf(evening)));
  const looked = counted.map((truth) => ({ truth, delayMin: delayOf(played, truth) }));
  const first = raised.filter(({ change, severity }) => change === "raised" && severity !== "note");
  const isWrong = (alert: Raised) => !isTrue(alert, truths);
  return {
    told: looked.flatMap(({ truth, delayMin }) => (delayMin === null ? [] : [{ truth, delayMin }])),
    missed: looked.filter(({ delayMin }) => delayMin === null).map(({ truth }) => truth),
    falseAlarms: first.filter((alert) => !isOnlyForeseen(alert) && isWrong(alert)),
    falseForecasts: first.filter((alert) => isOnlyForeseen(alert) && isWrong(alert)),
    foretold: first.flatMap((alert) => {
      const { matter, atMin } = alert;
      const comes = alert.isForecast ? alert.comesAtMin : (nextOf(matter, atMin, truths)?.fromMin ?? null);
      return isOnlyForeseen(alert) && matter !== "boothIdle" && comes !== null && !isWrong(alert)
        ? [{ matter, leadMin: comes - atMin }]
        : [];
    }),
  };
}

function isOnlyForeseen({ matter, isForecast }: Raised): boolean {
  return isForecast || matter === "sunComing" || matter === "boothIdle";
}

function isTrue(alert: Raised, truths: readonly Truth[]): boolean {
  const { matter, atMin, comesAtMin, isForecast } = alert;
  if (isForecast)
    return comesAtMin !== null && (matter !== "tooHot" || comesAtMin - atMin <= heatComesWithinMin);
  if (matter === "sunComing") return nextOf(matter, atMin, truths) !== null;
  return truths.some(
    (truth) =>
      truth.matter === matter &&
      truth.fromMin - Math.max(1, earlyMin[matter] ?? 0) <= atMin &&
      atMin <= truth.toMin + graceOf(matter),
  );
}

function nextOf(matter: Matter, atMin: number, truths: readonly Truth[]): Truth | null {
  const next = truths.find(
    (truth) =>
      truth.matter === matter && truth.fromMin >= atMin - 1 && truth.fromMin - atMin <= sunComesWithinMin,
  );
  return next ?? null;
}

/** So long before it begins it may be said already: the sun is announced, the others have no sharp edge. */
const earlyMin: Readonly<Partial<Record<Matter, number>>> = {
  ...{ sunComing: sunComesWithinMin, heatForGuests: 15, boothIdle: 15 },
};

/**
 * How long after its beginning it was said loudly enough, at once where before it; null: never. Who said
 * to be on it when it was "soon" is not called again when it becomes "now"; without that word a new notice has to come.
 */
function delayOf({ notices, raised }: Played, truth: Truth): number | null {
  const sinceMin = truth.sinceMin ?? truth.fromMin - (earlyMin[truth.matter] ?? 0.2);
  const untilMin = truth.sinceMin === undefined ? truth.toMin + graceOf(truth.matter) : truth.fromMin;
  const toldOf = new Set(notices.map(({ alertId }) => alertId));
  const became = raised.filter(
    ({ alertId, change, isTaken }) => change === "worse" && isTaken && toldOf.has(alertId),
  );
  const said = [...notices, ...became].filter(
    ({ matter, atMin, severity }) =>
      (matter === truth.matter || matter === truth.alsoBy) &&
      compareSeverity(severity, truth.severity) >= 0 &&
      atMin >= sinceMin &&
      atMin <= untilMin,
  );
  return said.length === 0 ? null : Math.max(0, Math.min(...said.map(({ atMin }) => atMin)) - truth.fromMin);
}

/** After guests were kept away the first one takes a while to come. */
function graceOf(matter: Matter): number {
  return matter === "boothIdle" ? 15 : graceMin;
}
