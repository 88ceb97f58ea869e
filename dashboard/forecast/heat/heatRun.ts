import { copyBank, learnReading, openVariance, variance, type Bank } from "./bank.ts";
import { sunDrive, type HeatDrive } from "./heatDrive.ts";
import type { HeatReading, HeatSite } from "./heatSite.ts";
import { fanSteps, lookAhead, moveOn, stepMin, type Surroundings } from "./lookAhead.ts";
import { mixtureOf, voicesOf } from "./mixture.ts";
import { forgetSurroundings, openBank, restart, shiftSurroundings } from "./openBank.ts";
import { outsideAfter, outsideAt, surroundingsSdFor, type OutsideFigure } from "./outsideFigure.ts";
import { horizonsMin, noErrors, withReadingSeen, type OwnErrors } from "./ownErrors.ts";
import { isStuck, noRepeats, withRepeat, type Repeats } from "./repeats.ts";
import { whyNotReading, type ReadingFault } from "./whyNotReading.ts";

/** Readings as the run keeps them. */
type Point = { readonly atMs: number; readonly insideC: number };

/**
 * One thermometer's forecast between two readings: carry it from reading to reading. It is never changed, so it may
 * be kept, asked and gone on from as often as one likes. A booth with several thermometers has as many runs.
 */
export type HeatRun = {
  readonly site: HeatSite;
  readonly drive: HeatDrive;
  /** Null before the first reading. */
  readonly state: HeatState | null;
  /** What was wrong with the reading that came last; null when it was taken. */
  readonly fault: ReadingFault | null;
  /** When the last reading came that was in order, taken or not. */
  readonly seenAtMs: number | null;
  readonly repeats: Repeats;
  /** The state after the last reading that moved: what a stuck thermometer said since is forgotten. */
  readonly moved: HeatState | null;
  /** Readings far from what was expected, one after another. */
  readonly suspects: readonly Point[];
};

export type HeatState = {
  readonly bank: Bank;
  readonly outside: OutsideFigure;
  readonly first: Point;
  /** The last reading that was taken. */
  readonly last: Point;
  readonly taken: number;
  /** Errors of one sign in a row: how many, and which. */
  readonly signed: { readonly count: number; readonly sign: number };
  readonly errors: OwnErrors;
  readonly saidAtMs: number;
};

const minuteMs = 60_000;

/** The run before any reading. `drive` is the clear sky's sun; a trial may put another in its place. */
export function heatRunOf(site: HeatSite, drive: HeatDrive = sunDrive(site)): HeatRun {
  const nothing = { state: null, fault: null, seenAtMs: null, moved: null };
  return { site, drive, ...nothing, repeats: noRepeats, suspects: [] };
}

/** The run with one more reading. A reading that is left out leaves its `fault` on the run, and a gap. */
export function withReading(run: HeatRun, reading: HeatReading): HeatRun {
  const fault = whyNotReading(reading, run.seenAtMs);
  if (fault !== null) return { ...run, fault };
  const { atMs, insideC } = reading;
  const repeats = withRepeat(run.repeats, insideC);
  const seen = { ...run, seenAtMs: atMs, repeats };
  if (run.state === null) {
    const state = firstState(run, reading);
    return { ...seen, fault: null, state, moved: state };
  }
  if (isStuck(repeats)) return { ...seen, fault: "stuck", state: run.moved };
  const after = takeReading(seen, run.state, reading);
  // A spike between two equal readings ends no row.
  if (after.fault === "spike") return { ...after, repeats: run.repeats };
  return repeats.inRow === 0 ? { ...after, moved: after.state } : after;
}

function firstState({ site }: HeatRun, reading: HeatReading): HeatState {
  const { atMs, insideC } = reading;
  const outside = outsideAfter(null, reading, site);
  return {
    bank: openBank(insideC, surroundingsSdFor(outside)),
    ...{ outside, first: { atMs, insideC }, last: { atMs, insideC }, taken: 1 },
    ...{ signed: { count: 0, sign: 0 }, errors: noErrors, saidAtMs: -Infinity },
  };
}

/** After a gap this long the booth may have been driven elsewhere. */
const anewMs = 6 * 3_600_000;
/** A reading's weight in the members' weights fades so fast by the minute. */
const forgettingPerMin = 0.99;

/**
 * How much a reading counts when the members are weighed against each other: those a minute apart err alike, those
 * that come slowly each for themselves. Chosen on the tuning seeds and on records of real rooms.
 */
function worthOf(minutes: number): number {
  return Math.min(1, 0.6 + 0.08 * minutes);
}

function takeReading(run: HeatRun, state: HeatState, reading: HeatReading): HeatRun {
  const { atMs, insideC } = reading;
  const bank = copyBank(state.bank);
  const minutes = (atMs - state.last.atMs) / minuteMs;
  const isAnew = atMs - state.last.atMs > anewMs;
  if (!isAnew) moveOn(bank, state.last.atMs, atMs, surroundingsOf(run, state.outside));
  const outside = turnToOutside(bank, state.outside, reading, run.site);
  let { signed } = state;
  if (isAnew) restart(bank, insideC, surroundingsSdFor(outside));
  else {
    const { meanC, sdC } = mixtureOf(bank, voicesOf(bank));
    const errorC = insideC - meanC;
    if (isSpike(errorC, sdC)) {
      const suspects = [...run.suspects.filter((one) => agree(one, reading)), { atMs, insideC }];
      if (suspects.length < suspectsNeeded(minutes)) return { ...run, suspects, fault: "spike" };
      openVariance(bank, variance.air, errorC ** 2);
    }
    signed = signedAfter(signed, errorC / sdC);
    if (minutes <= 6 && signed.count % rowOfErrors === 0 && signed.count > 0)
      openVariance(bank, variance.push, Math.min(fastestCPerMin, Math.abs(errorC) / minutes) ** 2);
    learnReading(bank, insideC, forgettingPerMin ** minutes, worthOf(minutes));
  }
  const errors = withReadingSeen(state.errors, state.last, { atMs, insideC });
  const last = { atMs, insideC };
  const next = { ...state, bank, outside, last, taken: state.taken + 1, signed, errors };
  return { ...run, suspects: [], fault: null, state: saying(run, next) };
}

/** A figure of another kind begins: surroundings stay where they are, unless now for the first time they are read. */
function turnToOutside(
  bank: Bank,
  before: OutsideFigure,
  reading: HeatReading,
  site: HeatSite,
): OutsideFigure {
  const after = outsideAfter(before, reading, site);
  if (after.from === before.from) return after;
  if (after.from === "reading") forgetSurroundings(bank, surroundingsSdFor(after));
  else shiftSurroundings(bank, outsideAt(before, site, reading.atMs) - outsideAt(after, site, reading.atMs));
  return after;
}

export function surroundingsOf({ site, drive }: HeatRun, outside: OutsideFigure): Surroundings {
  return { drive, outsideAt: (atMs) => outsideAt(outside, site, atMs) };
}

/** Farther from what was expected than this, in sd and in C, a single reading is not believed. */
const spikeSds = 4.5;
const spikeC = 1.5;

function isSpike(errorC: number, sdC: number): boolean {
  return Math.abs(errorC) > spikeC && Math.abs(errorC) > spikeSds * sdC;
}

function agree(one: Point, { atMs, insideC }: HeatReading): boolean {
  return Math.abs(one.insideC - insideC) < spikeC + (0.25 * (atMs - one.atMs)) / minuteMs;
}

/** Three in a row are believed; two when they come slowly, as a third would come too late. */
function suspectsNeeded(minutes: number): number {
  return minutes > 6 ? 2 : 3;
}

/** So many errors of one sign in a row mean that something changed, such as a door. */
const rowOfErrors = 3;
/** No door or cooler heats or cools faster, C/min. */
const fastestCPerMin = 1;
/** An error counts in such a row from so many sd on. */
const countsFromSd = 1;

function signedAfter({ count, sign }: HeatState["signed"], sds: number): HeatState["signed"] {
  const now = Math.abs(sds) < countsFromSd ? 0 : Math.sign(sds);
  return { sign: now, count: now === 0 ? 0 : now === sign ? count + 1 : 1 };
}

/** Notes what is forecast now, to be held against what comes: at the first reading five minutes after the last time. */
function saying(run: HeatRun, state: HeatState): HeatState {
  const { atMs } = state.last;
  if (atMs - state.saidAtMs < stepMin * minuteMs) return state;
  const ahead = lookAhead(state.bank, atMs, surroundingsOf(run, state.outside));
  const fromC = ahead[0]!.meanC;
  const said = horizonsMin.map((minutes, horizon) => {
    const { meanC, sdC } = ahead[(minutes / 60) * fanSteps]!;
    return { dueAtMs: atMs + minutes * minuteMs, horizon, fromC, meanC, sdC };
  });
  const { waiting, each } = state.errors;
  return { ...state, saidAtMs: atMs, errors: { each, waiting: [...waiting, ...said] } };
}
