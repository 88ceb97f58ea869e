import type { AlertView, Matter } from "@boothward/shared-types";
import { reasonText, reasonWords, type ReasonText } from "./reasonWords.ts";
import {
  lowerFirst,
  rollToFit,
  sentence,
  sheetsOf,
  type AlertWords,
  type Formatter,
  type Telling,
} from "./telling.ts";

/** What every page has the words for at once; those for the others come when one is first shown. */
export type CommonMatter = "printerStopped" | "mediaLow" | "tooHot" | "agentSilent";
export type RarerMatter = Exclude<Matter, CommonMatter>;

/** The texts of what happens at most events, in English; null: it is none of these. */
export function commonWords(telling: Telling): AlertWords | null {
  const { alert } = telling;
  switch (alert.matter) {
    case "printerStopped":
      return stoppedWords(telling);
    case "mediaLow":
      return alert.sheetsLeft === 0 ? emptyWords(telling) : lowWords(telling);
    case "tooHot":
      return alert.byAtMs === null || alert.severity === "actNow" ? hotWords(telling) : warmingWords(telling);
    case "agentSilent":
      return silentWords(telling);
    default:
      return null;
  }
}

/** A printer that says only that it has stopped. */
const nameless: ReasonText = { says: "has stopped", doNow: "look at its display" };

const rollKeywords: ReadonlySet<string> = new Set(["media-empty", "media-needed", "marker-supply-empty"]);

const heatCaution =
  "The printer's limit is no limit for people: nobody stays in a closed booth or trailer in this heat.";

function stoppedWords({ alert, who, format }: Telling): AlertWords {
  const [worst, ...others] = alert.reasons;
  const text = worst === undefined ? nameless : reasonText(worst);
  const needsRoll = worst !== undefined && rollKeywords.has(worst);
  const doNow = needsRoll ? rollToFit(alert).now : text.doNow;
  const sentences = [
    `It has not printed since ${format.clock(alert.sinceAtMs)}.`,
    ...(alert.queuedJobs !== null && alert.queuedJobs > 0 ? [waiting(alert.queuedJobs, format)] : []),
    ...others.map((keyword) => `It also ${reasonWords(keyword)}.`),
    ...(text.caution === undefined ? [] : [text.caution]),
  ];
  return {
    headline: `${who}'s printer ${text.says}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: sentences.join(" "),
    chip: "Stopped",
  };
}

function emptyWords({ alert, who, format }: Telling): AlertWords {
  const roll = rollToFit(alert);
  return {
    headline: `${who} has no paper left: ${roll.now} now.`,
    doNow: sentence(`${roll.now} now`),
    detail: `Empty since ${format.clock(alert.sinceAtMs)}. ${roll.spares(format)}`.trim(),
    chip: "Now",
  };
}

function lowWords({ alert, who, format }: Telling): AlertWords {
  const { sheetsLeft, emptyAtMs, byAtMs } = alert;
  const roll = rollToFit(alert);
  const isNow = alert.severity === "actNow";
  const ends = emptyAtMs === null ? null : `about ${format.clock(emptyAtMs)}`;
  const by = byAtMs === null ? "" : ` by ${format.clock(byAtMs)}`;
  const left = sheetsLeft === null ? "The paper" : sheetsOf(sheetsLeft, format);
  const verb = sheetsLeft === 1 || sheetsLeft === null ? "ends" : "end";
  const why =
    ends === null ? `${left} may not last to close.` : `Left as it is, ${lowerFirst(left)} ${verb} ${ends}.`;
  return {
    headline: isNow
      ? `${who} runs out of paper ${ends ?? "soon"}: ${roll.now} now.`
      : `${who} needs a roll${by}${by === "" ? " before close" : ""}.`,
    doNow: sentence(isNow ? `${roll.now} now` : `${roll.now}${by}`),
    detail: `${why} ${roll.spares(format)}`.trim(),
    chip: isNow ? "Now" : byAtMs === null ? "Soon" : `By ${format.clock(byAtMs)}`,
  };
}

function hotWords({ alert, who, isTrailer, format }: Telling): AlertWords {
  const { insideC, limitC } = alert;
  const isNow = alert.severity === "actNow";
  const figures = insideC === null ? "" : ` at ${format.temperature(insideC)}`;
  const limit = limitC === null ? "" : ` The printer's limit is ${format.temperature(limitC)}.`;
  return {
    headline: `${who} is too hot for its printer${figures}: give it shade and air${isNow ? " now" : ""}.`,
    doNow: coolingWords(isTrailer),
    detail: `Too hot since ${format.clock(alert.sinceAtMs)}.${limit} ${heatCaution}`,
    chip: isNow ? "Now" : "Soon",
  };
}

function warmingWords(telling: Telling): AlertWords {
  const { alert, who, isTrailer, format } = telling;
  const by = format.clock(alert.byAtMs ?? alert.sinceAtMs);
  const { insideC, limitC } = alert;
  const now = insideC === null ? "" : `It is ${format.temperature(insideC)} at the printer and rising. `;
  const limit = limitC === null ? "its limit" : format.temperature(limitC);
  return {
    headline: `${who} needs shade and air by ${by}, or its printer gets too hot.`,
    doNow: coolingWords(isTrailer),
    detail: `${now}${chanceWords(telling.alert, limit, by)} ${heatCaution}`,
    chip: `By ${by}`,
  };
}

/** The chance in words that need no arithmetic. */
function chanceWords({ crossChance60 }: AlertView, limit: string, by: string): string {
  if (crossChance60 === null || crossChance60 >= 0.5)
    return `If it goes on like this it passes ${limit} about ${by}.`;
  const inTen = ["one", "two", "three", "four", "five"][Math.max(0, Math.round(crossChance60 * 10) - 1)];
  return `It may pass ${limit} within the hour, a chance of ${inTen ?? "five"} in ten.`;
}

function silentWords({ alert, who, atMs, format }: Telling): AlertWords {
  return {
    headline: `${who} has been silent for ${format.minutes(Math.max(0, atMs - alert.sinceAtMs))}.`,
    doNow: "Ask at the booth whether it prints, then look at its network.",
    detail: `Last heard at ${format.clock(alert.sinceAtMs)}. What it counts meanwhile comes in later.`,
    chip: "Silent",
  };
}

function coolingWords(isTrailer: boolean): string {
  return isTrailer
    ? "Put the awning out and open the doors on the shady side."
    : "Move the printer out of the sun and keep its vents free.";
}

function waiting(jobs: number, { count }: Formatter): string {
  return jobs === 1 ? "One print waits." : `${count(jobs)} prints wait.`;
}
