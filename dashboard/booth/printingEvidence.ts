import { withEntry } from "./keyed.ts";

/** When each print queue last finished something, and how long its last sheets took: facts, never thinned. */
export type Finishing = {
  readonly queue: string;
  readonly finishedAtMs: number;
  /** Pitches of the last finished things, the newest last. */
  readonly sizes: readonly number[];
  /** ms a sheet, of things that followed each other closely, the newest last. */
  readonly sheetsMs: readonly number[];
};

const lastsKept = 9;

/** Sheets take 8 to 20 s (common practice, no source): a longer gap was a pause of the guests. */
const longestSheetMs = 90_000;

/** Takes in that a queue finished something. */
export function foldFinished(
  finishings: readonly Finishing[],
  queue: string,
  pitches: number,
  atMs: number,
): readonly Finishing[] {
  const before = finishings.find((each) => each.queue === queue);
  const sheetMs = before === undefined ? 0 : (atMs - before.finishedAtMs) / Math.max(1, pitches);
  const isClose = sheetMs > 0 && sheetMs <= longestSheetMs;
  const sheetsMs = isClose ? [...(before?.sheetsMs ?? []), sheetMs] : (before?.sheetsMs ?? []);
  const sizes = [...(before?.sizes ?? []), pitches];
  return withEntry(finishings, (each) => each.queue, {
    ...{ queue, finishedAtMs: atMs },
    ...{ sizes: sizes.slice(-lastsKept), sheetsMs: sheetsMs.slice(-lastsKept) },
  });
}
