import type { CountDifference } from "@boothward/shared-types";
import { rollToFit, sentence, type AlertWords, type Formatter, type Telling } from "./telling.ts";

/** The texts about paper and counts that are no stop yet, in English. */

/** All the paper aboard is too little: the spares have to be fetched, which takes the longest of all. */
export function sparesWords({ alert, who, format }: Telling): AlertWords {
  const { byAtMs, emptyAtMs } = alert;
  const more = Math.max(1, (alert.rollsNeeded ?? 0) - (alert.spareRolls ?? 0));
  const rolls = more === 1 ? "one more roll" : `${format.count(more)} more rolls`;
  const by = byAtMs === null ? " before the close" : ` by ${format.clock(byAtMs)}`;
  const ends =
    emptyAtMs === null
      ? "The paper there may not last to close, spares and all."
      : `Spares and all, the paper there ends about ${format.clock(emptyAtMs)}.`;
  return {
    headline: `${who} needs ${rolls}${by}, beside what is there.`,
    doNow: sentence(`bring ${rolls}${by}`),
    detail: `${ends} ${rollToFit(alert).spares(format)}`.trim(),
    chip: byAtMs === null ? "Soon" : `By ${format.clock(byAtMs)}`,
  };
}

/** One question that only somebody at the booth can answer. */
export function doubtWords({ alert, who, format }: Telling): AlertWords {
  const { question, sheetsLeft } = alert;
  const since = format.clock(question?.atMs ?? alert.sinceAtMs);
  const isFitted = question?.ask === "fitted";
  const used =
    sheetsLeft === null ? "" : ` Until somebody answers, ${format.count(sheetsLeft)} are counted on.`;
  return {
    headline: isFitted ? `${who}: was a new roll fitted at ${since}?` : `${who}: how many sheets are left?`,
    doNow: isFitted
      ? "Ask at the booth, and answer on its page."
      : "Count what is left at the booth, and say it on its page.",
    detail: isFitted
      ? `It looks as if a roll was fitted at ${since}, and nobody said so.${used}`
      : `Meter and count disagree since ${since}.${used}`,
    chip: "Check",
  };
}

/** What a counting source is to people; one that is not listed is shown as it is. */
const sources: ReadonlyMap<string, string> = new Map(
  Object.entries({
    hook: "the booth program",
    layouts: "the folder of layouts",
    shots: "the folder of pictures",
    jobs: "the print queue",
    counter: "the printer's own counter",
  }),
);

/** Two counts that do not agree: nothing to do this evening, but not to be found out afterwards. */
export function differWords({ alert, who, format }: Telling): AlertWords {
  const { difference } = alert;
  const since = `They differ since ${format.clock(alert.sinceAtMs)}.`;
  const what = difference?.quantity === "sessions" ? "sessions" : "prints";
  return {
    headline: `${who}'s two counts of ${what} do not agree.`,
    doNow: "Nothing now: the report will print both.",
    detail: difference === null ? since : `${since} ${figuresOf(difference, format)}`,
    chip: "Counts",
  };
}

function figuresOf({ counted, other, otherBy }: CountDifference, { count }: Formatter): string {
  return `${count(counted)} are counted, and ${sources.get(otherBy) ?? otherBy} shows ${count(other)}.`;
}
