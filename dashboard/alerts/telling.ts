import type { AlertView } from "@boothward/shared-types";

/** Makes numbers readable, in the reader's language and the venue's time zone. */
export type Formatter = {
  /** "20:40" */
  readonly clock: (atMs: number) => string;
  /** "29 minutes" */
  readonly minutes: (lengthMs: number) => string;
  /** "41 °C" */
  readonly temperature: (c: number) => string;
  /** "1,204" */
  readonly count: (n: number) => string;
};

/** What people read of an alert. */
export type AlertWords = {
  /** The verdict: which booth, what, and what to do or by when. At most 110 characters. */
  readonly headline: string;
  /** The one thing to do. */
  readonly doNow: string;
  /** Why, since when, and the caution where one is due. */
  readonly detail: string;
  /** One or two words beside the booth's name. */
  readonly chip: string;
};

/** What each alert's sentences are made from. */
export type Telling = {
  readonly alert: AlertView;
  /** "Marigold", "The trailer Sorrel". */
  readonly who: string;
  readonly isTrailer: boolean;
  readonly atMs: number;
  readonly format: Formatter;
};

/** Longest name that leaves room for the rest of a headline. */
const longestName = 30;

/** What the sentences of an alert are made from. */
export function tellingOf(
  alert: AlertView,
  boothName: string,
  isTrailer: boolean,
  atMs: number,
  format: Formatter,
): Telling {
  const name = shortName(boothName, longestName);
  return { alert, who: isTrailer ? `The trailer ${name}` : name, isTrailer, atMs, format };
}

/** A name of at most so many characters, cut between letters as people see them, never within an emoji. */
export function shortName(name: string, most: number): string {
  if (name.length <= most) return name;
  let kept = "";
  for (const { segment } of new Intl.Segmenter().segment(name)) {
    if (kept.length + segment.length > most - 1) break;
    kept += segment;
  }
  return `${kept.trimEnd()}…`;
}

/** Whether the headline already says what to do, so that it need not stand below it once more. */
export function saysWhatToDo({ headline, doNow }: AlertWords): boolean {
  return headline.toLowerCase().includes(doNow.toLowerCase().replace(/\.$/, ""));
}

/** How soon, as one or two words beside the booth's name. */
export function chipOf({ severity, byAtMs }: AlertView, { clock }: Formatter): string {
  if (severity === "actNow") return "Now";
  if (severity === "note") return "Note";
  return byAtMs === null ? "Soon" : `By ${clock(byAtMs)}`;
}

/** Which roll, and what is said of the spares. */
export function rollToFit({ spareRolls }: AlertView) {
  if (spareRolls === null) return { now: "fit a roll", spares: () => "" };
  if (spareRolls === 0) {
    return { now: "bring a roll and fit it", spares: () => "No spare is left at the booth." };
  }
  const spares = ({ count }: Formatter) =>
    spareRolls === 1 ? "One spare roll is there." : `${count(spareRolls)} spare rolls are there.`;
  return { now: spareRolls === 1 ? "fit the spare roll" : "fit a spare roll", spares };
}

export function sheetsOf(n: number, { count }: Formatter): string {
  return n === 1 ? "The last sheet" : `The ${count(n)} sheets`;
}

export function sentence(text: string): string {
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

export function lowerFirst(text: string): string {
  return `${text.charAt(0).toLowerCase()}${text.slice(1)}`;
}
