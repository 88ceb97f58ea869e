import { batteryLeft } from "../booth/batteryLeft.ts";
import { isLookedAt } from "../booth/printerNow.ts";
import type { MachineSeen } from "../booth/machineSeen.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

const minuteMs = 60_000;

/** Time to find a socket and a cord: with less it is now. Our own choice. */
const batteryNowMin = 30;

/** Without a drain to go by: a worn battery's last sixth goes fast (common practice, no source). */
const batteryNowPct = 15;

/** Whether the booth's computer runs on its battery while it is to work, and for how long it still may. */
export function judgeBattery(scene: Scene): Judged {
  const { state } = scene;
  const matter = "onBattery";
  const phase = phaseOf(scene);
  if (state.power === null) return { matter, stands: "unseen" };
  const left = batteryLeft(state);
  if (phase === "away" || left === null) return { matter, stands: "clear" };
  const batteryMin = left.minutesLeft;
  const emptyAtMs = batteryMin === null ? null : left.atMs + batteryMin * minuteMs;
  const restMin = emptyAtMs === null ? null : (emptyAtMs - scene.atMs) / minuteMs;
  const isScarce = restMin === null ? (left.batteryPct ?? 0) <= batteryNowPct : restMin <= batteryNowMin;
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: phase === "open" && isScarce ? "actNow" : "plan" },
    since: { atMs: state.power.sinceAtMs, isAtLatest: false },
    ...{ byAtMs: emptyAtMs, batteryPct: left.batteryPct },
    batteryMin: restMin === null ? null : Math.max(0, Math.floor(restMin)),
  };
}

/** With less than this a booth program may fail at any picture, and the agent's outbox begins to thin. Our own choice. */
const diskNowMb = 500;

/** The agent's outbox and logs at their largest, an update's download, and room for the system. Our own choice. */
const diskFloorMb = 1_500;

/** Shots, the layout and its copies of a session, for each sheet it takes (common practice, no source). */
const mbPerSheet = 25;

/** So much more than needed before it is over. */
const diskClearShare = 1.2;

/** The host says its disk each minute. */
const hostGoodMs = 10 * minuteMs;

/** Whether the disk holds what the rest of the night makes. */
export function judgeDisk(scene: Scene): Judged {
  const { host } = scene.state.readings;
  const matter = "diskShort";
  if (host === null || host.diskFreeMb === null || scene.atMs - host.atMs > hostGoodMs)
    return { matter, stands: "unseen" };
  const { diskFreeMb } = host;
  const diskNeededMb = neededMb(scene);
  if (diskFreeMb >= diskNeededMb * diskClearShare) return { matter, stands: "clear" };
  const isNow = diskFreeMb < diskNowMb && phaseOf(scene) === "open";
  const away = phaseOf(scene) === "away" ? "note" : "plan";
  return {
    ...noFigures,
    ...{ matter, stands: diskFreeMb < diskNeededMb ? "holds" : "lingers" },
    ...{ severity: isNow ? "actNow" : away, since: null, diskFreeMb, diskNeededMb },
  };
}

function neededMb({ outlook, shown }: Scene): number {
  if (outlook.media === null || shown.media === null) return diskFloorMb;
  const sheets = Math.max(0, shown.media.sheetsLeft - outlook.media.leftAtClose.p10);
  return diskFloorMb + sheets * mbPerSheet;
}

/** The dashboard corrects the clock; pictures and the booth program's own times do not. Certificates mind hours. */
const clockOff = { raiseMs: 120_000, clearMs: 60_000 };

/** A clock that claimed the future so long ago is taken for right again. */
const doubtMs = 10 * minuteMs;

export function isClockDoubtful(doubtfulAtMs: number | null, atMs: number): doubtfulAtMs is number {
  return doubtfulAtMs !== null && atMs - doubtfulAtMs <= doubtMs;
}

/** Whether the clock of the booth's computer is wrong by minutes, or claims times that have not come. */
export function judgeClock(scene: Scene): Judged {
  const matter = "clockOff";
  const { clockOffMs } = scene.shown;
  const isDoubtful = isClockDoubtful(scene.clockDoubtfulAtMs, scene.atMs);
  if (clockOffMs === null && !isDoubtful) return { matter, stands: "unseen" };
  const offMs = Math.abs(clockOffMs ?? 0);
  if (!isDoubtful && offMs < clockOff.clearMs) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: isDoubtful || offMs >= clockOff.raiseMs ? "holds" : "lingers" },
    ...{ severity: phaseOf(scene) === "near" ? "plan" : "note", since: null },
    clockOffMs: isDoubtful && offMs < clockOff.raiseMs ? null : clockOffMs,
  };
}

/** Whether a system update waits for a restart while there is time for one. */
export function judgeUpdate(scene: Scene): Judged {
  const machine = machineNow(scene);
  const matter = "updatePending";
  const phase = phaseOf(scene);
  if (phase === "away") return { matter, stands: "clear" };
  if (machine === null || machine.isUpdatePending === null) return { matter, stands: "unseen" };
  if (!machine.isUpdatePending) return { matter, stands: "clear" };
  return {
    ...noFigures,
    // Nobody is called to a restart while guests are there.
    ...{
      matter,
      stands: phase === "near" ? "holds" : "lingers",
      severity: phase === "near" ? "plan" : "note",
    },
    since: { atMs: machine.sinceAtMs, isAtLatest: true },
    byAtMs: phase === "near" ? (scene.booking?.openAtMs ?? null) : null,
  };
}

/** Whether the booth's computer would go to sleep in a quiet hour. */
export function judgeSleep(scene: Scene): Judged {
  const machine = machineNow(scene);
  const matter = "sleepOn";
  const phase = phaseOf(scene);
  if (phase === "away") return { matter, stands: "clear" };
  if (machine === null || machine.sleepsAfterMin === null) return { matter, stands: "unseen" };
  if (machine.sleepsAfterMin === 0) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "plan" },
    since: { atMs: machine.sinceAtMs, isAtLatest: true },
    byAtMs: phase === "near" ? (scene.booking?.openAtMs ?? null) : null,
    sleepsAfterMin: machine.sleepsAfterMin,
  };
}

function machineNow({ state, atMs }: Scene): MachineSeen | null {
  const { machine, faults } = state;
  if (machine === null || faults.some(({ source }) => source === machine.source)) return null;
  return isLookedAt(machine, state, atMs) ? machine : null;
}
