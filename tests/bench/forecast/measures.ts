import { baseRateScore, brierScore, calibrationError, mean, type SaidChance } from "./scores.ts";
import { baselineMethods, naiveMethods, pinballShare, program, type TriedEvening } from "./tryEvening.ts";

/** Below this chance that the roll lasts, somebody is told. */
const warnBelow = 0.35;
/** A warning is in time when it comes that long before the roll is empty. */
const inTimeMs = 15 * 60_000;

/** A part of the evening in which it is asked, as shares of it. */
type Part = readonly [from: number, to: number];
const wholeEvening: Part = [0, 1];

/** The pinball share of a method, each evening weighing the same. */
export function pinballOf(
  evenings: readonly TriedEvening[],
  method: string,
  [from, to] = wholeEvening,
): number {
  return mean(
    evenings.map(({ asks, total, startAtMs, endAtMs }) => {
      const lengthMs = endAtMs - startAtMs;
      const inPart = asks.filter(
        ({ atMs }) => atMs - startAtMs >= from * lengthMs && atMs - startAtMs < to * lengthMs,
      );
      return mean(inPart.map(({ said, seen }) => pinballShare(saidOf(said, method), seen, total)));
    }),
  );
}

/** The method with the least pinball share over all of them. */
export function bestOf(
  evenings: readonly TriedEvening[],
  methods: readonly string[],
): { readonly method: string; readonly pinball: number } {
  return methods
    .map((method) => ({ method, pinball: pinballOf(evenings, method) }))
    .reduce((best, one) => (one.pinball < best.pinball ? one : best));
}

/** The program's pinball over that of the one best of some methods. */
export function ratioToBest(evenings: readonly TriedEvening[], methods: readonly string[]): number {
  return pinballOf(evenings, program) / bestOf(evenings, methods).pinball;
}
export const ratioToNaive = (evenings: readonly TriedEvening[]) => ratioToBest(evenings, naiveMethods);
export const ratioToBaseline = (evenings: readonly TriedEvening[]) => ratioToBest(evenings, baselineMethods);

/** How far the middle of the forecast lies above what came, on average, as a share of the evening's sheets. */
export function biasOf(evenings: readonly TriedEvening[], method = program): number {
  return mean(
    evenings.flatMap(({ asks, total }) =>
      asks.map(({ said, seen }) => (saidOf(said, method).p50 - seen) / total),
    ),
  );
}

/** Of all asks, how many were followed by a demand within the 80 % band. */
export function coverageOf(evenings: readonly TriedEvening[], method = program): number {
  return mean(
    evenings.flatMap(({ asks }) =>
      asks.map(({ said, seen }) => {
        const { p10, p90 } = saidOf(said, method);
        return seen >= p10 && seen <= p90 ? 1 : 0;
      }),
    ),
  );
}

/** The chances that the roll lasts which were named while there was something on it. */
export function chancesOf(evenings: readonly TriedEvening[], method = program): SaidChance[] {
  return evenings.flatMap(({ asks }) =>
    asks
      .filter(({ sheetsLeft }) => sheetsLeft > 0)
      .map(({ said, seen, sheetsLeft }) => ({
        chance: saidOf(said, method).lastsChance,
        came: seen <= sheetsLeft,
      })),
  );
}

/** What part of the Brier score of the base rate, and of the one best baseline, is saved. */
export function brierSkill(evenings: readonly TriedEvening[]): { overBase: number; overBest: number } {
  const said = chancesOf(evenings);
  const ours = brierScore(said);
  const best = Math.min(...baselineMethods.map((method) => brierScore(chancesOf(evenings, method))));
  return { overBase: 1 - ours / baseRateScore(said), overBest: 1 - ours / best };
}

export function calibrationErrorOf(evenings: readonly TriedEvening[], method = program): number {
  return calibrationError(chancesOf(evenings, method));
}

/** Run-outs of which somebody was told in time, and evenings that lasted but were warned of. */
export function warningsOf(
  evenings: readonly TriedEvening[],
  method = program,
): { runOuts: number; caught: number; falseWarnings: number } {
  const warnedBefore = ({ asks }: TriedEvening, untilMs: number) =>
    asks.some(
      ({ atMs, sheetsLeft, said }) =>
        sheetsLeft > 0 && atMs <= untilMs && saidOf(said, method).lastsChance < warnBelow,
    );
  const ranOut = evenings.filter(({ emptyAtMs }) => emptyAtMs !== null);
  const lasted = evenings.filter(({ emptyAtMs }) => emptyAtMs === null);
  return {
    runOuts: ranOut.length / evenings.length,
    caught: mean(ranOut.map((one) => (warnedBefore(one, (one.emptyAtMs ?? 0) - inTimeMs) ? 1 : 0))),
    falseWarnings: mean(lasted.map((one) => (warnedBefore(one, Infinity) ? 1 : 0))),
  };
}

function saidOf<T>(said: Readonly<Record<string, T>>, method: string): T {
  const one = said[method];
  if (one === undefined) throw new Error(`no answer by ${method}`);
  return one;
}
