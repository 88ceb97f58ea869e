import type { OpeningCheck } from "@boothward/shared-types/planView";
import { reasonWords } from "../../alerts/reasonWords.ts";
import { checkLines, checks as words, found } from "./en/checks.ts";
import { faultWords } from "./en/facts.ts";
import { listed } from "./en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** A line of the checks as a person reads it: its name, what was found, and what to do where something is. */
export function checkText(check: OpeningCheck, format: Format): { name: string; note: string } {
  const { name, how } = checkLines[check.check];
  const finding = findingOf(check, format);
  const at = check.atMs === null ? null : format.clock(check.atMs);
  switch (check.state) {
    case "ticked":
      return { name, note: words.by(check.by ?? "?", at ?? "") };
    case "seen":
      return { name, note: finding === "" ? (at === null ? "" : words.seenAt(at)) : finding };
    case "notPossible":
      return { name, note: joined(sentence(check.fault === null ? "" : faultWords[check.fault]), how) };
    case "toDo":
    case "question":
      return { name, note: joined(sentence(finding), how) };
  }
}

const joined = (...parts: string[]) => parts.filter((part) => part !== "").join(" ");

const sentence = (text: string) =>
  text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?]$/.test(text) ? "" : "."}`;

/** The figures of a line in words; empty where there are none. */
function findingOf({ check, figures, details, by, state }: OpeningCheck, format: Format): string {
  const figure = (name: string) => figures[name] ?? null;
  const count = (name: string) => format.count(figure(name) ?? 0);
  switch (check) {
    case "printerAnswers":
      if (details.length > 0) return listed(details.map(reasonWords));
      return (figure("queuedJobs") ?? 0) > 0 ? found.printerWaiting(count("queuedJobs")) : found.printerIdle;
    case "paper":
      if (figure("sheetsLeft") === null) return "";
      return state === "question" ? found.asked(count("sheetsLeft")) : found.sheets(count("sheetsLeft"));
    case "paperEnough":
      if (state === "seen") return found.enough(count("usualSheets"), count("mostSheets"));
      return figure("spares") === null
        ? found.shortUnknown(count("needed"))
        : found.short(count("needed"), count("spares"));
    case "sparesThere":
      return found.spares(figure("spareRolls") ?? 0);
    case "onMains":
      return mainsText(figure, state, format);
    case "clock":
      return clockText(figure("offMs"), format);
    case "disk":
      return found.disk(gigabytes(figure("freeMb")), gigabytes(figure("needMb")));
    case "sleep":
      return state === "toDo" ? found.sleeps(format.minutes((figure("sleepsAfterMin") ?? 0) * 60_000)) : "";
    case "camera":
      return listed(details);
    case "temperature":
      return temperatureText(figure, state, format);
    case "dewPoint":
      return dewText(figure, state, format);
    case "printSize":
      return sizeText(figure("pitchesEach"), details, state);
    case "testAlert":
      return by === null ? "" : found.reached(by, found.ways[details[0] ?? ""] ?? details[0] ?? "");
    case "powerLocated":
    case "level":
    case "secured":
    case "agentHeard":
    case "update":
    case "testPrint":
    case "whiteBalance":
    case "rulesPosted":
      return "";
  }
}

type Figure = (name: string) => number | null;
type State = OpeningCheck["state"];

function mainsText(figure: Figure, state: State, format: Format): string {
  if (figure("isOnMains") === 1) return found.mains;
  const pct = figure("batteryPct");
  if (pct !== null) return found.battery(format.count(pct));
  return state === "seen" ? found.batteryPlanned : "";
}

function clockText(offMs: number | null, format: Format): string {
  if (offMs === null) return "";
  return offMs < 1000 ? found.clockRight : found.clockOff(format.age(offMs));
}

function temperatureText(figure: Figure, state: State, format: Format): string {
  const now = found.temperature(
    format.temperature(figure("insideC") ?? 0, 1),
    format.temperature(figure("limitC") ?? 0),
  );
  if (state !== "question") return now;
  return `${now}; ${found.willCross(format.count(100 * (figure("crossChance60") ?? 0)))}`;
}

function dewText(figure: Figure, state: State, format: Format): string {
  const dew = format.temperature(figure("dewC") ?? 0, 1);
  if (state !== "question") return found.dew(dew);
  const waitMin = figure("waitMin");
  return waitMin === null ? found.sweatsOn(dew) : found.sweats(dew, format.minutes(waitMin * 60_000));
}

function sizeText(pitchesEach: number | null, sizes: readonly string[], state: State): string {
  if (pitchesEach === null) return "";
  const planned = found.planned(listed(sizes));
  return state === "toDo" ? `${found.pitches(String(pitchesEach))}, ${planned}` : planned;
}

function gigabytes(mb: number | null): string {
  return `${((mb ?? 0) / 1000).toFixed(0)}\u00a0GB`;
}
