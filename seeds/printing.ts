import type { DayBooth } from "./day.ts";
import { between, type Dice } from "./dice.ts";
import type { Visit } from "./guests.ts";

/** One print job; instants are minutes relative to now, Infinity for what never comes. */
export type Job = {
  readonly sentMin: number;
  readonly fromMin: number;
  readonly doneMin: number;
  readonly copies: number;
  readonly pitches: number;
};

/** A stretch in which the printer cannot print. */
export type Stop = {
  readonly fromMin: number;
  readonly toMin: number;
  /** IPP keyword with its suffix. */
  readonly reason: string;
  readonly message: string;
};

/** A full kit put in. */
export type Fitted = { readonly atMin: number; readonly sheets: number };

export type Printing = {
  readonly jobs: readonly Job[];
  readonly stops: readonly Stop[];
  readonly fitted: readonly Fitted[];
};

/** From the last picture to the layout's arrival at the printer: common practice, no source. */
const layoutS = 3;

/** How long an attendant needs to see an empty printer, and then to change its roll: our own figures. */
const noticeEmptyMin = 2;
const changeMin = 2;

/**
 * What the printer makes of the parties: first come, first printed, one sheet after the other, none in
 * a jam or with the cover open. Where the paper ends without a planned change, the attendant fits a
 * spare four minutes later; without a spare nothing is printed any more and the jobs wait.
 */
export function printingOf(booth: DayBooth, visits: readonly Visit[], dice: Dice): Printing {
  const run = startRun(booth);
  for (const visit of visits) printOne(booth, run, visit, dice);
  const stops = run.stops.toSorted((a, b) => a.fromMin - b.fromMin);
  return { jobs: run.jobs, stops, fitted: run.fitted.toSorted((a, b) => a.atMin - b.atMin) };
}

type Run = {
  jobs: Job[];
  stops: Stop[];
  fitted: Fitted[];
  /** Jams to come: one happens while the next sheet after its minute is fed. */
  jams: { readonly atMin: number; readonly forMin: number }[];
  freeMin: number;
  spares: number;
};

function startRun(booth: DayBooth): Run {
  const jams = booth.incidents.filter((made) => made.kind === "jam").toSorted((a, b) => a.atMin - b.atMin);
  const spares = booth.booking.spareRolls;
  const run: Run = { jobs: [], stops: [], fitted: [], jams, freeMin: -Infinity, spares };
  for (const made of booth.incidents) {
    const { atMin } = made;
    if (made.kind === "rollChange") {
      run.stops.push(openCover(atMin, atMin + made.forMin));
      run.fitted.push({ atMin: atMin + made.forMin, sheets: booth.kitSheets });
      run.spares -= 1;
    }
  }
  return run;
}

function printOne(booth: DayBooth, run: Run, { toMin, copies, pitches }: Visit, dice: Dice): void {
  const sentMin = toMin + layoutS / 60;
  let fromMin = afterStops(run.stops, Math.max(sentMin, run.freeMin));
  if (sheetsLeft(booth.booking.sheetsLoaded, run, fromMin) < pitches)
    fromMin = afterStops(run.stops, endOfPaper(booth, run, fromMin));
  const sheetMin = (booth.prints.perSheetS * between(dice, 0.95, 1.05)) / 60;
  let doneMin = fromMin;
  for (let sheet = 0; sheet < pitches; sheet++) doneMin = feedSheet(run, doneMin, sheetMin);
  run.jobs.push({ sentMin, fromMin, doneMin, copies, pitches });
  run.freeMin = doneMin;
}

/** Feeds one sheet at `fromMin`, which may jam; returns when it is out. */
function feedSheet(run: Run, fromMin: number, sheetMin: number): number {
  const outMin = sheetDone(run.stops, fromMin, sheetMin);
  const [due] = run.jams;
  if (due === undefined || due.atMin >= outMin) return outMin;
  run.jams.shift();
  const jammedMin = Math.max(due.atMin, outMin - sheetMin / 2);
  run.stops.push(jam(jammedMin, jammedMin + due.forMin));
  return sheetDone(run.stops, fromMin, sheetMin);
}

/** When a sheet begun at `fromMin` is out: one that a stop catches is begun anew after it. */
function sheetDone(stops: readonly Stop[], fromMin: number, sheetMin: number): number {
  const caught = stops.find((stop) => stop.fromMin < fromMin + sheetMin && stop.toMin > fromMin);
  return caught === undefined ? fromMin + sheetMin : sheetDone(stops, caught.toMin, sheetMin);
}

function afterStops(stops: readonly Stop[], atMin: number): number {
  const within = stops.find((stop) => stop.fromMin <= atMin && atMin < stop.toMin);
  return within === undefined ? atMin : afterStops(stops, within.toMin);
}

/** Sheets left after everything that was done up to and at this minute. */
export function sheetsLeft(
  loaded: number,
  { jobs, fitted }: Pick<Printing, "jobs" | "fitted">,
  atMin: number,
): number {
  const last = fitted.filter((one) => one.atMin <= atMin).toSorted((a, b) => b.atMin - a.atMin)[0];
  const sinceMin = last?.atMin ?? -Infinity;
  return jobs
    .filter((job) => job.doneMin > sinceMin && job.doneMin <= atMin)
    .reduce((left, job) => left - job.pitches, last?.sheets ?? loaded);
}

/** Stops the printer for want of paper; returns when it goes on, Infinity if it does not. */
function endOfPaper(booth: DayBooth, run: Run, atMin: number): number {
  const planned = run.fitted.find((one) => one.atMin > atMin);
  if (planned !== undefined) {
    run.stops.push(empty(atMin, planned.atMin));
    return planned.atMin;
  }
  if (run.spares <= 0) {
    if (atMin < Infinity) run.stops.push(empty(atMin, Infinity));
    return Infinity;
  }
  const fedMin = atMin + noticeEmptyMin + changeMin;
  run.spares -= 1;
  run.stops.push(empty(atMin, fedMin));
  run.fitted.push({ atMin: fedMin, sheets: booth.kitSheets });
  return fedMin;
}

function jam(fromMin: number, toMin: number): Stop {
  return { fromMin, toMin, reason: "media-jam-error", message: "Paper jam" };
}

function openCover(fromMin: number, toMin: number): Stop {
  return { fromMin, toMin, reason: "cover-open-warning", message: "Cover open" };
}

function empty(fromMin: number, toMin: number): Stop {
  return { fromMin, toMin, reason: "media-empty-error", message: "Out of paper" };
}
