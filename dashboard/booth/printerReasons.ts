import type { PrinterStateWord } from "@boothward/shared-types";

/** One of IPP's printer-state-reasons, taken apart. */
export type PrinterReason = {
  readonly keyword: string;
  /** null: sent without a suffix, the severity is then judged by the keyword. */
  readonly suffix: "error" | "warning" | "report" | null;
};

/**
 * Keywords of RFC 8011 section 5.4.12 that keep paper from coming out when they come without a suffix,
 * worst first: what a person must put right at the printer before what clears by itself.
 * Source: the definitions there; the order is ours.
 */
const stoppingKeywords = [
  "media-jam",
  "media-empty",
  "marker-supply-empty",
  "media-needed",
  "cover-open",
  "door-open",
  "interlock-open",
  "input-tray-missing",
  "output-tray-missing",
  "output-area-full",
  "marker-waste-full",
  "toner-empty",
  "developer-empty",
  "opc-life-over",
  "fuser-over-temp",
  "shutdown",
  "timed-out",
  "paused",
];

const rankOf = new Map(stoppingKeywords.map((keyword, rank) => [keyword, rank]));

/** Takes one reason apart. A keyword nobody knows is kept as it is. */
export function readReason(sent: string): PrinterReason {
  const match = /^(.+)-(error|warning|report)$/.exec(sent);
  if (match === null) return { keyword: sent, suffix: null };
  return { keyword: match[1] ?? sent, suffix: match[2] as PrinterReason["suffix"] };
}

/**
 * Whether this reason alone keeps the printer from printing. A suffix decides where there is one
 * (RFC 8011 section 5.4.12); without one the keyword does, and an unknown keyword does not.
 */
export function doesStop(reason: PrinterReason): boolean {
  return reason.suffix === null ? rankOf.has(reason.keyword) : reason.suffix === "error";
}

/**
 * Whether a printer in this state cannot print. 'processing' proves nothing: a print server goes on
 * processing a job for which there is no paper.
 */
export function isPrinterStopped(state: PrinterStateWord | null, reasons: readonly string[]): boolean {
  return state === "stopped" || reasons.some((sent) => doesStop(readReason(sent)));
}

/** Keywords for a person, worst first, each once: those that stop it, or all there are when none does. */
export function worstKeywords(reasons: readonly string[]): readonly string[] {
  const read = reasons.filter((sent) => sent !== "none").map(readReason);
  const stopping = read.filter(doesStop);
  const keywords = (stopping.length > 0 ? stopping : read).map((reason) => reason.keyword);
  return [...new Set(keywords)].sort((a, b) => rank(a) - rank(b));
}

/** Whether the printer says that paper or ribbon has run out. */
export function saysEmpty(reasons: readonly string[]): boolean {
  return reasons
    .map(readReason)
    .some((reason) => doesStop(reason) && /^(media|marker-supply)-empty$/.test(reason.keyword));
}

function rank(keyword: string): number {
  return rankOf.get(keyword) ?? stoppingKeywords.length;
}
