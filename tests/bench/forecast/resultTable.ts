import { figuresOf } from "../figures.ts";
import {
  bestOf,
  biasOf,
  brierSkill,
  calibrationErrorOf,
  coverageOf,
  pinballOf,
  ratioToBaseline,
  ratioToNaive,
  warningsOf,
} from "./measures.ts";
import { baselineMethods, program, type TriedEvening } from "./tryEvening.ts";

/** All that was tried, by where it comes from. */
export type Tried = {
  readonly simulated: readonly TriedEvening[];
  /** Open arrival records, with earlier days told and without. */
  readonly learned: readonly TriedEvening[];
  readonly cold: readonly TriedEvening[];
};

/** A measure with what it must and what it should be, each as bounds that it lies within. */
export type MeasureRow = {
  readonly measure: string;
  readonly value: number;
  readonly must: Bounds;
  readonly aim: Bounds;
};
type Bounds = readonly [low: number, high: number];
const atMost = (high: number): Bounds => [-Infinity, high];
const atLeast = (low: number): Bounds => [low, Infinity];

/** The measures that count, as far as there are evenings to take them from. */
export function measureRows({ simulated, learned, cold }: Tried): MeasureRow[] {
  const rows = simulated.length > 0 ? simulatedRows(simulated) : [];
  if (learned.length > 0)
    rows.push(
      row(
        "open records with earlier days: pinball over the one best naive",
        ratioToNaive(learned),
        atMost(0.74),
        atMost(0.68),
      ),
      row(
        "open records with earlier days: over the one best baseline",
        ratioToBaseline(learned),
        atMost(0.95),
        atMost(0.89),
      ),
    );
  if (cold.length > 0)
    rows.push(
      row("open records, cold: over the one best baseline", ratioToBaseline(cold), atMost(1.1), atMost(1)),
      row(
        "calibration error, open records",
        calibrationErrorOf([...learned, ...cold]),
        atMost(0.08),
        atMost(0.05),
      ),
    );
  const all = [...simulated, ...learned, ...cold];
  const covers = largeFamilies(all).map((evenings) => coverageOf(evenings));
  rows.push(
    row("coverage of the 80 % band, least of any family", Math.min(...covers), atLeast(0.68), atLeast(0.72)),
    row("coverage of the 80 % band, most of any family", Math.max(...covers), atMost(0.95), atMost(0.92)),
    row("ms an ask, median", figuresOf(all.flatMap(({ askMs }) => askMs)).p50, atMost(3), atMost(1)),
  );
  return rows;
}

function simulatedRows(simulated: readonly TriedEvening[]): MeasureRow[] {
  const worst = Math.max(...largeFamilies(simulated).map((evenings) => ratioToBaseline(evenings)));
  const skill = brierSkill(simulated);
  const warnings = warningsOf(simulated);
  return [
    row("simulated: pinball over the one best naive", ratioToNaive(simulated), atMost(0.88), atMost(0.78)),
    row("simulated: over the one best baseline", ratioToBaseline(simulated), atMost(0.96), atMost(0.82)),
    row("simulated: worst family over its own best baseline", worst, atMost(1.25), atMost(1.1)),
    row("coverage of the 80 % band, simulated", coverageOf(simulated), [0.76, 0.88], [0.78, 0.84]),
    row("Brier skill of 'it lasts' over the base rate", skill.overBase, atLeast(0.45), atLeast(0.58)),
    row("Brier skill over the one best baseline", skill.overBest, atLeast(0.08), atLeast(0.15)),
    row("calibration error, simulated", calibrationErrorOf(simulated), atMost(0.05), atMost(0.02)),
    row("run-outs told of 15 min ahead", warnings.caught, atLeast(0.93), atLeast(0.97)),
    row("evenings that lasted with a false warning", warnings.falseWarnings, atMost(0.22), atMost(0.15)),
  ];
}

function row(measure: string, value: number, must: Bounds, aim: Bounds): MeasureRow {
  return { measure, value, must, aim };
}

/** One line a family: how the program does against that family's best. */
export type FamilyRow = {
  readonly family: string;
  readonly evenings: number;
  readonly pinball: number;
  readonly overNaive: number;
  readonly overBest: number;
  /** The same in each third of the evening. */
  readonly thirds: readonly number[];
  readonly best: string;
  readonly bias: number;
  readonly coverage: number;
  readonly runOuts: number;
  readonly caught: number;
  readonly falseWarnings: number;
};

export function familyRows({ simulated, learned, cold }: Tried): FamilyRow[] {
  return families([...simulated, ...learned, ...cold]).map(([family, evenings]) => {
    const best = bestOf(evenings, baselineMethods).method;
    return {
      family,
      evenings: evenings.length,
      pinball: pinballOf(evenings, program),
      overNaive: ratioToNaive(evenings),
      overBest: ratioToBaseline(evenings),
      thirds: thirds.map((part) => pinballOf(evenings, program, part) / pinballOf(evenings, best, part)),
      best,
      bias: biasOf(evenings),
      coverage: coverageOf(evenings),
      ...warningsOf(evenings),
    };
  });
}

const thirds = [
  [0, 1 / 3],
  [1 / 3, 2 / 3],
  [2 / 3, 1],
] as const;

/** A figure of fewer evenings is mostly chance; in a quick run all are as few. */
const fewestEvenings = 40;

function largeFamilies(evenings: readonly TriedEvening[]): readonly (readonly TriedEvening[])[] {
  const all = families(evenings).map(([, own]) => own);
  const large = all.filter(({ length }) => length >= fewestEvenings);
  return large.length > 0 ? large : all;
}

function families(evenings: readonly TriedEvening[]): [string, readonly TriedEvening[]][] {
  const names = [...new Set(evenings.map(({ family }) => family))];
  return names.map((name) => [name, evenings.filter(({ family }) => family === name)]);
}
