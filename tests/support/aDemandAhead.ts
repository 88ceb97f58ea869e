import type { DemandAhead } from "../../dashboard/forecast/demand/demandAhead.ts";

/** Demand whose mean is known exactly; counts are negative binomial. */
export type KnownDemand = {
  readonly atMs: number;
  readonly untilAtMs: number;
  /** Sheets an hour from each instant on, in the order of time; none before the first. */
  readonly perHour: readonly (readonly [fromAtMs: number, sheetsPerHour: number])[];
  readonly sheetsPerSession: number;
  /** How unsure the level of the evening is, one standard deviation as a share; 0: known, Poisson counts. */
  readonly spread: number;
};

const hourMs = 3_600_000;
const binMs = 300_000;

/** What lies ahead when the demand is known as well as this; exact, for tests of what follows from it. */
export function aDemandAhead(known: KnownDemand): DemandAhead {
  const { atMs, untilAtMs, spread, sheetsPerSession } = known;
  const stepsAtMs = stepsOf(atMs, untilAtMs);
  const means = stepsAtMs.map((each) => meanTo(known, each));
  const tables = new Map<number, readonly number[]>();
  const tableAt = (step: number) => {
    const kept = tables.get(step) ?? atMostTable(means[step] ?? 0, spread);
    tables.set(step, kept);
    return kept;
  };
  return {
    ...{ atMs, stepsAtMs, sheetsPerSession, basis: "planned" },
    atMost: (step, sheets) => {
      if (sheets < 0) return 0;
      const table = tableAt(step);
      return table[Math.min(Math.floor(sheets), table.length - 1)] ?? 1;
    },
    quantile: (step, share) => {
      const table = tableAt(step);
      const at = table.findIndex((chance) => chance >= share);
      return at < 0 ? table.length - 1 : at;
    },
    mean: (step) => means[step] ?? 0,
    withSheetsPerSession: (sheets, fromAtMs) => aDemandAhead(rescaled(known, sheets, fromAtMs)),
  };
}

function stepsOf(atMs: number, untilAtMs: number): readonly number[] {
  const steps = [atMs];
  for (let next = (Math.floor(atMs / binMs) + 1) * binMs; next < untilAtMs; next += binMs) steps.push(next);
  return untilAtMs > atMs ? [...steps, untilAtMs] : steps;
}

function meanTo({ atMs, perHour }: KnownDemand, toAtMs: number): number {
  return perHour.reduce((sum, [fromAtMs, rate], at) => {
    const endAtMs = Math.min(toAtMs, perHour[at + 1]?.[0] ?? Infinity);
    return sum + (rate * Math.max(0, endAtMs - Math.max(atMs, fromAtMs))) / hourMs;
  }, 0);
}

function rescaled(known: KnownDemand, sheets: number, fromAtMs: number): KnownDemand {
  const { perHour, sheetsPerSession } = known;
  const factor = sheets / sheetsPerSession;
  const before = perHour.filter(([each]) => each < fromAtMs);
  const after = perHour.filter(([each]) => each >= fromAtMs);
  const rateThen = before.at(-1)?.[1];
  const cut = rateThen === undefined ? [] : [[fromAtMs, rateThen * factor] as const];
  const later = after.map(([each, rate]) => [each, rate * factor] as const);
  const isCutOnPoint = after[0]?.[0] === fromAtMs;
  return { ...known, perHour: [...before, ...(isCutOnPoint ? [] : cut), ...later], sheetsPerSession: sheets };
}

/** P(X <= 0), P(X <= 1) ... until as good as 1. Source: the recurrence of the negative binomial, in logarithms. */
function atMostTable(mean: number, spread: number): readonly number[] {
  if (mean <= 0) return [1];
  const size = spread > 0 ? 1 / spread ** 2 : Infinity;
  let logP = size === Infinity ? -mean : -size * Math.log1p(mean / size);
  const logMiss = size === Infinity ? Math.log(mean) : Math.log(mean) - Math.log(size + mean);
  let sum = Math.exp(logP);
  const table = [sum];
  for (let k = 1; k < 20_000 && (sum < 1 - 1e-10 || k < mean); k += 1) {
    logP += (size === Infinity ? 0 : Math.log(k - 1 + size)) - Math.log(k) + logMiss;
    sum = Math.min(1, sum + Math.exp(logP));
    table.push(sum);
  }
  return table;
}
