import type { Readiness } from "@boothward/shared-types";
import { countsBetween } from "../booth/bins.ts";
import type { BookedTime } from "../booth/bookingWindows.ts";
import { printerNow } from "../booth/printerNow.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";
import { neededChance } from "./trust.ts";

const minuteMs = 60_000;

/** Rarer than once in two hundred and fifty quiet spells: a false one sends somebody through a room for nothing. Our own choice. */
const idleChance = { raise: 0.004, clear: 0.03 };

/** Shorter, or with fewer expected, nobody is sent, however unlikely it is. */
const idleLeast = { lengthMs: 30 * minuteMs, sessions: 6 };

/**
 * Whether nobody comes where many were to be expected: something stands in the way that no sensor sees, or the booth
 * is not found. Only where guests planned or sessions seen made an expectation.
 */
export function judgeIdle(scene: Scene): Judged {
  const { outlook, state, atMs } = scene;
  const matter = "boothIdle";
  if (phaseOf(scene) !== "open" || saidLast(scene)?.to === "onBreak") return { matter, stands: "clear" };
  if (outlook.idle === null) return { matter, stands: "clear" };
  const { idle } = outlook;
  // Whichever source has no value may be the one that would have counted them.
  if (idle.basis === "blind" || state.faults.length > 0) return { matter, stands: "unseen" };
  if (idle.noneChance > idleChance.clear) return { matter, stands: "clear" };
  const isLong = atMs - idle.sinceAtMs >= idleLeast.lengthMs && idle.sessionsExpected >= idleLeast.sessions;
  const raise = 1 - neededChance(1 - idleChance.raise, matter, scene.trust);
  // A printer that cannot print, or is out of sight, says itself why nobody comes.
  const printer = printerNow(state, atMs);
  const isSaid = printer?.isStopped === true || printer?.isSourceLost === true;
  return {
    ...noFigures,
    ...{ matter, stands: isLong && idle.noneChance <= raise && !isSaid ? "holds" : "lingers" },
    ...{ severity: "plan", since: { atMs: idle.sinceAtMs, isAtLatest: false } },
    sessionsExpected: Math.round(idle.sessionsExpected),
  };
}

/** Two prints of another size in a row: one may be a test, or a guest's own wish. */
const wrongInARow = 2;

/** Whether prints come out in a size that was not booked. */
export function judgePrintSize(scene: Scene): Judged {
  const { booking, state } = scene;
  const matter = "wrongPrintSize";
  const phase = phaseOf(scene);
  if (booking === null || booking.printSizes.length === 0 || phase === "away")
    return { matter, stands: "clear" };
  const seen = state.sizes.filter(({ atMs }) => atMs >= booking.fromAtMs);
  const last = seen.at(-1);
  if (last === undefined) return { matter, stands: "unseen" };
  const isWrong = ({ size }: { readonly size: string }) => !fits(size, booking);
  if (!isWrong(last)) return { matter, stands: "clear" };
  const right = seen.findLastIndex((each) => !isWrong(each));
  const wrong = seen.slice(right + 1);
  return {
    ...noFigures,
    ...{ matter, stands: wrong.length >= wrongInARow ? "holds" : "lingers" },
    severity: phase === "open" ? "actNow" : "plan",
    since: { atMs: wrong[0]?.atMs ?? last.atMs, isAtLatest: false },
    ...{ printSize: last.size, printSizes: booking.printSizes },
  };
}

/** A pair of strips goes to the printer as one 4x6 and is cut there: that it is cut cannot be seen. */
function fits(size: string, { printSizes }: BookedTime): boolean {
  return printSizes.some((booked) => booked === size || (booked === "2x6" && size === "4x6"));
}

/** Guests who began before the close are let finish. Our own choice. */
const lastGuestsMs = 10 * minuteMs;

/** So long without guests after the close nobody works on. */
const overAfterMs = 30 * minuteMs;

/** Whether guests are still served after the booked close, and nobody said that it was extended. */
export function judgeOverrun(scene: Scene): Judged {
  const { booking, state, atMs } = scene;
  const matter = "overrun";
  if (booking === null || atMs < booking.closeAtMs + lastGuestsMs || atMs >= booking.toAtMs)
    return { matter, stands: "clear" };
  const fromAtMs = booking.closeAtMs + lastGuestsMs;
  const { sessions } = countsBetween(state.bins, fromAtMs, atMs + 1);
  const lately = countsBetween(state.bins, Math.max(fromAtMs, atMs - overAfterMs), atMs + 1);
  const isBusy = lately.sessions > 0 || lately.pitches > 1;
  const word = saidLast(scene)?.to;
  if (word === "closing" || word === "packedDown" || !isBusy) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "plan" },
    since: { atMs: booking.closeAtMs, isAtLatest: false },
    sessionsCounted: sessions > 0 ? sessions : null,
  };
}

/** Guests served show that a booth is open, whatever was said: two, as one may be a test. */
const servedSessions = 2;

/** Whether the promised opening has passed and the booth is not open; before it, whether it stands ready as promised. */
export function judgeNotOpen(scene: Scene): Judged {
  const { booking, state, atMs } = scene;
  const matter = "notOpen";
  if (booking !== null && phaseOf(scene) === "near") return judgeNotReady(scene, booking);
  if (booking === null || phaseOf(scene) !== "open") return { matter, stands: "clear" };
  const { sessions, pitches } = countsBetween(state.bins, booking.openAtMs, atMs + 1);
  if (sessions >= servedSessions || pitches >= servedSessions) return { matter, stands: "clear" };
  const word = saidLast(scene);
  if (word === undefined) return { matter, stands: "unseen" };
  if (isOpened(word.to)) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "actNow" },
    since: { atMs: booking.openAtMs, isAtLatest: false },
  };
}

function judgeNotReady(scene: Scene, { promisedAtMs }: BookedTime): Judged {
  const matter = "notOpen";
  if (promisedAtMs === null || scene.atMs < promisedAtMs) return { matter, stands: "clear" };
  const word = saidLast(scene);
  if (word === undefined) return { matter, stands: "unseen" };
  if (word.to === "checked" || isOpened(word.to)) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "plan" },
    since: { atMs: promisedAtMs, isAtLatest: false },
  };
}

function isOpened(word: Readiness): boolean {
  return word === "open" || word === "onBreak" || word === "closing";
}

/** The last word on how far the booth is, of this booking; undefined: nobody says it here. */
function saidLast({ booking, state, atMs }: Scene) {
  return state.readiness.findLast(
    (change) => change.atMs <= atMs && change.atMs >= (booking?.fromAtMs ?? atMs),
  );
}
