import type { ClientReport, ReportPause } from "@boothward/shared-types";
import { zoneOffsetMs } from "../booth/zoneOffset.ts";
import type { VenueFormat } from "./venueFormat.ts";

/** The English sentences of a client's report; the page and the printed sheet say the same. */
export const reportWords = {
  sessions: "sessions",
  prints: "prints",
  sheets: "sheets printed",
  unknown: "not known",
  corrected: "corrected",
  bars: "Sessions per quarter-hour.",
  table: "Hour by hour",
  hour: "Time",
  evening: "Evening",
  pauses: "When it did not print",
  invented: "An invented evening, played by the demo.",
  footer:
    "Counted at the booth itself, from finished sessions and prints. No pictures and no guest data were read to make this report.",
  correctedFooter: "Figures marked as corrected were put right by the owner; the hours are as counted.",
};

/** Client, kind, booth, place and hours, in one line. */
export function kickerOf(report: ClientReport, format: VenueFormat): string {
  const { client, eventKind, boothName, place, openAtMs, closeAtMs } = report;
  const where = place === "" ? `booth ${boothName}` : `booth ${boothName}, ${place}`;
  const hours = `${format.clock(openAtMs)} to ${format.clock(closeAtMs)}`;
  return `${client}, ${eventKind} · ${where} · ${format.day(openAtMs)}, ${hours}`;
}

/** The evening in one sentence. */
export function headlineOf({ figures, isOver }: ClientReport, format: VenueFormat): string {
  const { sessions, prints, sheets } = figures;
  const came = sessions === null ? null : times(sessions, format);
  const home =
    prints !== null
      ? several(prints, "print", format)
      : sheets !== null
        ? several(sheets, "printed sheet", format)
        : null;
  if (came === null && home === null) return "Nothing was counted at this booth.";
  const begin = isOver ? "Your guests" : "So far your guests";
  const have = isOver ? "" : " have";
  if (came === null) return `${begin}${have} ${isOver ? "took" : "taken"} home ${home}.`;
  const stepped = `${begin}${have} stepped into the booth ${came}`;
  return home === null ? `${stepped}.` : `${stepped} and ${isOver ? "took" : "taken"} home ${home}.`;
}

/** "5 h 56 min", and under it what it is of. */
export function readyOf({ time }: ClientReport, format: VenueFormat): { figure: string; of: string } {
  return { figure: format.length(time.readyMs), of: `ready of ${format.length(time.promisedMs)} promised` };
}

/** How the promised time came about, where it is not simply what was booked; null: it is. */
export function promiseOf({ time, isOver }: ClientReport, format: VenueFormat): string | null {
  const { overrunMs, breaksMs, bookedMs } = time;
  const parts = [
    ...(overrunMs > 0 ? [`extended by ${format.length(overrunMs)}`] : []),
    ...(overrunMs < 0 ? [`closed ${format.length(-overrunMs)} sooner`] : []),
    ...(breaksMs > 0 ? [`breaks of ${format.length(breaksMs)} not counted`] : []),
  ];
  if (parts.length === 0) return null;
  const whole = `Booked for ${format.length(bookedMs)}, ${parts.join(", ")}`;
  return isOver ? `${whole}.` : `${whole}, so far.`;
}

/** The busiest quarter-hour; null: nobody came. */
export function busiestOf({ busiest }: ClientReport, format: VenueFormat): string | null {
  if (busiest === null) return null;
  const { atMs, sessions } = busiest;
  const to = format.clock(atMs + 15 * 60_000);
  return `Busiest: ${several(sessions, "session", format)} between ${format.clock(atMs)} and ${to}.`;
}

/** Each stretch in which the booth was not ready, the short ones together at the end. */
export function pauseLines(report: ClientReport, format: VenueFormat, mostLines = Infinity): string[] {
  const shown = report.pauses.filter(({ fromAtMs, toAtMs }) => toAtMs - fromAtMs >= shownFromMs);
  const listed = shown.length > mostLines ? shown.slice(0, mostLines - 1) : shown;
  const rest = report.pauses.filter((pause) => !listed.includes(pause));
  const restMs = rest.reduce((sum, { fromAtMs, toAtMs }) => sum + (toAtMs - fromAtMs), 0);
  if (report.pauses.length === 0) return ["It was ready all the time."];
  return [
    ...listed.map((pause) => pauseLine(pause, format)),
    ...(rest.length > 0 ? [restLine(rest.length, listed.length === 0, format.length(restMs), format)] : []),
  ];
}

function restLine(n: number, isAll: boolean, length: string, format: VenueFormat): string {
  return isAll
    ? `${several(n, "pause", format)}, ${length} in all.`
    : `And ${several(n, "pause", format)} more, ${length} in all.`;
}

/** "20:10 to 20:14: the paper was changed." */
export function pauseLine(pause: ReportPause, format: VenueFormat): string {
  const { fromAtMs, toAtMs } = pause;
  const when = `${format.clock(fromAtMs)} to ${format.clock(toAtMs)}`;
  return `${when} (${format.length(toAtMs - fromAtMs)}): ${whyPaused(pause)}.`;
}

/** Said when the clocks changed between opening and close; null: they did not. */
export function clockChangeOf({ openAtMs, closeAtMs, zone }: ClientReport): string | null {
  const moved = zoneOffsetMs(closeAtMs, zone) - zoneOffsetMs(openAtMs, zone);
  if (moved === 0) return null;
  const way = moved > 0 ? "forward" : "back";
  return `The clocks went ${way} during this event; all lengths are true lengths.`;
}

/** Shorter ones are told of together. */
const shownFromMs = 60_000;

function whyPaused({ why, reason }: ReportPause): string {
  switch (why) {
    case "rollChange":
      return "the paper was changed";
    case "packedDown":
      return "the booth was packed down before the close";
    case "onBreak":
      return "a break";
    case "unknown":
      return "not known, nothing was heard from the booth";
    case "stopped":
      return reasons[reason ?? ""] ?? "the printer had stopped";
  }
}

/** IPP's keywords (RFC 8011 section 5.4.12) as a client understands them; the others are a stop. */
const reasons: Readonly<Record<string, string>> = {
  "media-jam": "paper was jammed",
  "media-empty": "out of paper",
  "media-needed": "out of paper",
  "marker-supply-empty": "out of ribbon",
  "cover-open": "the printer was open",
  "door-open": "the printer was open",
  "interlock-open": "the printer was open",
  "output-area-full": "the tray of prints was full",
  "fuser-over-temp": "the printer was too hot",
  paused: "printing was paused",
  shutdown: "the printer was switched off",
  "timed-out": "the printer did not answer",
};

function times(n: number, format: VenueFormat): string {
  return n === 1 ? "once" : n === 2 ? "twice" : `${format.count(n)} times`;
}

function several(n: number, word: string, format: VenueFormat): string {
  return `${n === 0 ? "no" : format.count(n)} ${word}${n === 1 ? "" : "s"}`;
}
