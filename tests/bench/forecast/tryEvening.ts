import { baselineNames, baselinesAt, naiveNames, saidBy, spreadOut, type Said } from "./baselines.ts";
import { totalSheets, type Evening } from "./evening.ts";
import type { Doubts } from "./fitDoubt.ts";
import { askTimes, isoOf, linesUpTo, openingLines, type ReplayLine } from "./replayLines.ts";
import { mean, quantileScore } from "./scores.ts";

/** What the replay answers to an ask, as far as the bench reads it. */
export type Answer = {
  readonly at: string;
  readonly sheetsLeft: number;
  readonly demandToEnd: { readonly p10: number; readonly p50: number; readonly p90: number };
  readonly lastsChance: number;
};
/** A forecast that is given line after line and answers each ask. */
export type Forecaster = { readonly take: (line: ReplayLine) => Answer | null };

/** Each forecast by its name: the program's, and each baseline with each of its two variances. */
export const program = "program";
export const methodNames: readonly string[] = [
  program,
  ...baselineNames.flatMap((name) => [`${name}, counts only`, `${name}, fitted`]),
];
export const baselineMethods = methodNames.slice(1);
export const naiveMethods = baselineMethods.filter((method) =>
  naiveNames.some((name) => method.startsWith(name)),
);

/** One ask: what came after it, and what each method had said. */
export type Asked = {
  readonly atMs: number;
  readonly sheetsLeft: number;
  readonly seen: number;
  readonly said: Readonly<Record<string, Said>>;
};
export type TriedEvening = {
  readonly family: string;
  readonly startAtMs: number;
  readonly endAtMs: number;
  readonly total: number;
  /** When the loaded sheets were used up; null: not before the close, or just then. */
  readonly emptyAtMs: number | null;
  readonly asks: readonly Asked[];
  /** What each ask of the program took. */
  readonly askMs: readonly number[];
};

/** Runs one evening through the program and all baselines. */
export function tryEvening(
  evening: Evening,
  open: () => Forecaster,
  doubts: Doubts,
  clockMs: () => number,
): TriedEvening {
  const forecaster = open();
  for (const line of openingLines(evening)) forecaster.take(line);
  const askMs: number[] = [];
  const asks: Asked[] = [];
  let afterMs = -Infinity;
  for (const atMs of askTimes(evening)) {
    const lines = linesUpTo(evening, afterMs, atMs);
    for (const line of lines.slice(0, -1)) forecaster.take(line);
    const before = clockMs();
    const answer = forecaster.take({ kind: "ask", at: isoOf(atMs) });
    askMs.push(clockMs() - before);
    if (answer === null) throw new Error(`no answer to the ask at ${isoOf(atMs)} of ${evening.family}`);
    asks.push(scoreable(evening, atMs, answer, doubts));
    afterMs = atMs;
  }
  const { family, startAtMs, endAtMs } = evening;
  return {
    family,
    startAtMs,
    endAtMs,
    total: totalSheets(evening),
    emptyAtMs: emptyAt(evening),
    asks,
    askMs,
  };
}

function scoreable(evening: Evening, atMs: number, answer: Answer, doubts: Doubts): Asked {
  const used = evening.sessions.reduce((sum, { atMs: at, sheets }) => (at <= atMs ? sum + sheets : sum), 0);
  const sheetsLeft = evening.plan.sheetsLoaded - used;
  const outsets = baselinesAt(evening, atMs);
  const said: Record<string, Said> = {
    [program]: { ...answer.demandToEnd, lastsChance: answer.lastsChance },
  };
  for (const name of baselineNames) {
    said[`${name}, counts only`] = saidBy(spreadOut(outsets[name], 0), sheetsLeft);
    said[`${name}, fitted`] = saidBy(spreadOut(outsets[name], doubts[name]), sheetsLeft);
  }
  return { atMs, sheetsLeft, seen: totalSheets(evening) - used, said };
}

function emptyAt({ sessions, plan }: Evening): number | null {
  let left = plan.sheetsLoaded;
  let emptiedAtMs: number | null = null;
  for (const { atMs, sheets } of sessions) {
    left -= sheets;
    if (left <= 0) emptiedAtMs ??= atMs;
  }
  return left < 0 ? emptiedAtMs : null;
}

/** The quantile scores at 10, 50 and 90 %, their mean, as a share of the evening's sheets. */
export function pinballShare({ p10, p50, p90 }: Said, seen: number, total: number): number {
  return (
    mean([quantileScore(p10, seen, 0.1), quantileScore(p50, seen, 0.5), quantileScore(p90, seen, 0.9)]) /
    total
  );
}
