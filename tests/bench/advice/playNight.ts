import { between, seededDice, type Dice } from "../../../seeds/dice.ts";
import type { Evening } from "../forecast/evening.ts";
import type { ChangeRule } from "./changeRule.ts";

/** What became of one evening's guests and sheets. */
export type Night = {
  /** Groups that found the booth closed for a change, or waited for prints because the roll was empty. */
  readonly delayed: number;
  /** Groups that lost patience over it and left. */
  readonly turnedAway: number;
  /**
   * Sheets that no guest got: at each fitting, of a part roll later on too; of a print that the end of the roll
   * caught; printed for guests who had left; thrown away with a roll that was not worth keeping.
   */
  readonly wasted: number;
  /** Sheets on part rolls that came back to stock. */
  readonly setAside: number;
  readonly changes: number;
};

export const kitSheets = 400;
const sparesAboard = 3;

const minuteMs = 60_000;
const tickMs = 5 * minuteMs;
/** A session in a hurry, door to door. Common practice says 60 to 100 s; guests come spaced by it already. */
const sessionMs = 50_000;
/** A sheet takes 8 to 20 s, a change 2 to 3 min and 1 to 4 sheets: common practice, no source. */
const sheetMs = 12_000;
const changeMin = [2, 3] as const;
const wastedAtFitting = [1, 4] as const;
/** Until somebody sees that the printer has stopped, and how long guests wait before they leave: our own guesses. */
const noticeMin = [1, 3] as const;
const patienceMin = [2, 10] as const;
/** A roll with fewer sheets is thrown away; so near the close nobody changes one that still prints. Our own guesses. */
const worthKeeping = 15;
const lastChangeMs = 10 * minuteMs;

type Group = { readonly readyAtMs: number; readonly sheets: number; readonly patienceMs: number };
type Held = Group & { readonly endAtMs: number };

/** The evening as it goes on; the dice of guests and of changes are kept apart, so that each rule meets the same guests. */
type Going = {
  readonly rule: ChangeRule;
  readonly closeAtMs: number;
  readonly dice: Dice;
  readonly sessions: { atMs: number; sheets: number }[];
  readonly stops: { fromAtMs: number; toAtMs: number }[];
  left: number;
  spares: number;
  boothFreeAtMs: number;
  printedAtMs: number;
  tickAtMs: number;
  /** The roll has run out: until somebody sees it, groups go on and their prints are held. */
  runOut: { readonly fromAtMs: number; readonly changeAtMs: number; readonly held: Held[] } | null;
  night: Night;
};

/** Plays one evening with a roll of `loaded` sheets on the printer, under a rule for changing it. */
export function playNight(evening: Evening, loaded: number, rule: ChangeRule, seed: number): Night {
  const going: Going = {
    ...{ rule, closeAtMs: evening.endAtMs, dice: seededDice(seed, "changes"), sessions: [], stops: [] },
    ...{ left: loaded, spares: sparesAboard, boothFreeAtMs: evening.startAtMs, printedAtMs: 0 },
    ...{ tickAtMs: evening.startAtMs, runOut: null },
    night: { delayed: 0, turnedAway: 0, wasted: 0, setAside: 0, changes: 0 },
  };
  for (const group of groupsOf(evening, seed)) {
    passTicks(going, group.readyAtMs);
    serve(going, group);
  }
  if (going.runOut !== null && going.runOut.held.length > 0) fitAfterRunOut(going);
  return going.night;
}

function groupsOf({ sessions }: Evening, seed: number): Group[] {
  const dice = seededDice(seed, "patience");
  return sessions.map(({ atMs, sheets }) => ({
    readyAtMs: atMs - sessionMs,
    sheets,
    patienceMs: between(dice, ...patienceMin) * minuteMs,
  }));
}

/** Somebody looks at the roll every five minutes while nobody is in the booth. */
function passTicks(going: Going, untilAtMs: number): void {
  for (; going.tickAtMs < untilAtMs; going.tickAtMs += tickMs) {
    if (going.runOut === null && going.boothFreeAtMs <= going.tickAtMs) askRule(going, going.tickAtMs);
  }
}

function serve(going: Going, group: Group): void {
  if (going.runOut !== null && Math.max(group.readyAtMs, going.boothFreeAtMs) >= going.runOut.changeAtMs) {
    fitAfterRunOut(going);
  }
  const startAtMs = Math.max(group.readyAtMs, going.boothFreeAtMs);
  const isDelayed = going.stops.some(
    ({ fromAtMs, toAtMs }) => toAtMs > group.readyAtMs && fromAtMs < startAtMs,
  );
  if (isDelayed && (startAtMs - group.readyAtMs > group.patienceMs || startAtMs >= going.closeAtMs)) {
    return count(going, { turnedAway: 1 });
  }
  if (isDelayed) count(going, { delayed: 1 });
  const endAtMs = startAtMs + sessionMs;
  going.boothFreeAtMs = endAtMs;
  if (going.runOut === null) return print(going, { ...group, endAtMs });
  going.runOut.held.push({ ...group, endAtMs });
}

function print(going: Going, group: Held): void {
  if (going.left < group.sheets) {
    // The job that the end of the roll caught is printed again from its first sheet.
    count(going, { wasted: going.left });
    const emptyAtMs = Math.max(group.endAtMs, going.printedAtMs) + going.left * sheetMs;
    going.left = 0;
    return runOut(going, emptyAtMs, [group]);
  }
  takeSheets(going, group, Math.max(group.endAtMs, going.printedAtMs));
  if (askRule(going, group.endAtMs) !== "change" && going.left === 0) runOut(going, going.printedAtMs, []);
}

function takeSheets(going: Going, { endAtMs, sheets }: Held, fromAtMs: number): void {
  going.left -= sheets;
  going.printedAtMs = fromAtMs + sheets * sheetMs;
  going.sessions.push({ atMs: endAtMs, sheets });
}

function askRule(going: Going, atMs: number): ReturnType<ChangeRule> {
  const { left: sheetsLeft, spares: spareRolls, sessions, stops } = going;
  const said = going.rule({ atMs, sheetsLeft, spareRolls, sessions, stops });
  const isTooLate = going.left > 0 && going.closeAtMs - atMs < lastChangeMs;
  if (said !== "change" || isTooLate || going.spares === 0) return said === "standBy" ? said : "leave";
  const { left } = going;
  count(going, left < worthKeeping ? { wasted: left } : { setAside: left, wasted: atFitting(going) });
  fit(going, Math.max(atMs, going.boothFreeAtMs, going.printedAtMs));
  return said;
}

function runOut(going: Going, fromAtMs: number, held: Held[]): void {
  const { sessions, stops, spares: spareRolls } = going;
  const said = going.rule({ atMs: fromAtMs, sheetsLeft: 0, spareRolls, sessions, stops });
  const noticeMs = said === "leave" ? between(going.dice, ...noticeMin) * minuteMs : 0;
  going.runOut = { fromAtMs, changeAtMs: fromAtMs + noticeMs, held };
}

/** Fits the next roll and prints what was held; whoever waited too long has left without. */
function fitAfterRunOut(going: Going): void {
  const { runOut } = going;
  if (runOut === null) return;
  going.runOut = null;
  if (going.spares === 0) return count(going, { turnedAway: runOut.held.length });
  fit(going, Math.max(runOut.changeAtMs, going.boothFreeAtMs));
  for (const group of runOut.held) {
    takeSheets(going, group, going.printedAtMs);
    const hasLeft = going.printedAtMs - group.endAtMs > group.patienceMs;
    count(going, hasLeft ? { turnedAway: 1, wasted: group.sheets } : { delayed: 1 });
  }
}

function fit(going: Going, fromAtMs: number): void {
  const toAtMs = fromAtMs + between(going.dice, ...changeMin) * minuteMs;
  const wasted = atFitting(going);
  going.stops.push({ fromAtMs, toAtMs });
  [going.left, going.spares] = [kitSheets - wasted, going.spares - 1];
  [going.boothFreeAtMs, going.printedAtMs] = [toAtMs, toAtMs];
  count(going, { changes: 1, wasted });
}

function atFitting({ dice }: Going): number {
  return Math.round(between(dice, ...wastedAtFitting));
}

function count(going: Going, more: Partial<Night>): void {
  const add = (key: keyof Night) => going.night[key] + (more[key] ?? 0);
  going.night = {
    delayed: add("delayed"),
    turnedAway: add("turnedAway"),
    wasted: add("wasted"),
    setAside: add("setAside"),
    changes: add("changes"),
  };
}
