import type { Matter } from "@boothward/shared-types";
import type { Judged } from "./alert.ts";
import { judgeCondensation, judgeHeatForGuests } from "./judgeAir.ts";
import { judgeDifference, judgeDoubt } from "./judgeCounts.ts";
import { judgeIdle, judgeNotOpen, judgeOverrun, judgePrintSize } from "./judgeEvening.ts";
import { judgeHeat } from "./judgeHeat.ts";
import { judgeBattery, judgeClock, judgeDisk, judgeSleep, judgeUpdate } from "./judgeMachine.ts";
import { judgeMedia } from "./judgeMedia.ts";
import { judgePeer } from "./judgePeers.ts";
import { judgePrinter } from "./judgePrinter.ts";
import { judgeAttendant, judgeTest } from "./judgeReach.ts";
import { judgeSilence } from "./judgeSilence.ts";
import { judgeSpares } from "./judgeSpares.ts";
import { judgeSun } from "./judgeSun.ts";
import { judgePrinterUnseen } from "./judgeUnseen.ts";
import type { Scene } from "./scene.ts";

/** One matter that may need a person: how it is judged, and when and to whom it is said. */
export type Rule = {
  readonly matter: Matter;
  readonly judge: (scene: Scene) => Judged;
  /** Holds so long without a break before it is raised. */
  readonly holdMs: number;
  /** Is clear so long without a break before it is taken back. */
  readonly clearHoldMs: number;
  /** Who can do something about it; "both" only together, so that both hear at once. */
  readonly concerns: "attendant" | "owner" | "both";
  /** What is only foreseen, as far as it has no beginning yet. */
  readonly isForecast: boolean;
  /** Known by the booth's own word alone: hidden, and neither raised nor cleared, while it is not heard. */
  readonly underSiteDark: boolean;
  /** Where it is how things are just then, and nothing to say. */
  readonly normalIn: readonly Stretch[];
  /**
   * Not raised again so soon after it was over, unless it is for now and lasts: what comes and goes is said once.
   * Also chosen by booth and matter, never shared by several.
   */
  readonly floorMs: number;
};

/** When a booth is built up and taken down. */
export type Stretch = "settingUp" | "packingDown";

const [secondMs, minuteMs] = [1_000, 60_000];

/**
 * Ten minutes for what was measured: one alarm in ten minutes is what one person can bear from all there is (ISA-18.2
 * and EEMUA 191, by secondary pages). A forecast is made anew from the same evening: half an hour. What stays as it
 * is until a person changes it is said once an hour.
 */
const floors = { measured: 10 * minuteMs, foreseen: 30 * minuteMs, lasting: 60 * minuteMs } as const;

const atBooth = { concerns: "attendant", underSiteDark: true, isForecast: false, normalIn: [] } as const;
const measured = { ...atBooth, floorMs: floors.measured } as const;
const foreseen = { ...atBooth, isForecast: true, floorMs: floors.foreseen } as const;
const lasting = { ...atBooth, floorMs: floors.lasting } as const;
const whileMoved = { normalIn: ["settingUp", "packingDown"] } as const;

/**
 * The rules. Their thresholds stand beside their judges; all are our own choice, to be set by the scored
 * record later.
 */
export const rules: readonly Rule[] = [
  // A jam does not clear by itself; five seconds outlast a queue that pauses between two jobs.
  {
    ...{ matter: "printerStopped", judge: judgePrinter, ...measured, ...whileMoved },
    ...held(5 * secondMs, 5 * secondMs),
  },
  // A print server that restarts, or a cable that is put in anew, takes some seconds.
  {
    ...{ matter: "printerUnseen", judge: judgePrinterUnseen, ...measured, ...whileMoved },
    ...held(30 * secondMs, 10 * secondMs),
  },
  // A forecast moves with every print: a minute, so that one busy session raises nothing.
  {
    ...{ matter: "mediaLow", judge: judgeMedia, ...foreseen, normalIn: ["packingDown"] },
    ...held(60 * secondMs, 10 * secondMs),
  },
  // Rolls are fetched from outside: the owner, or whoever drives.
  {
    ...{ matter: "sparesShort", judge: judgeSpares, ...foreseen, normalIn: ["packingDown"] },
    ...held(60 * secondMs, 10 * secondMs),
    concerns: "both",
  },
  // A meter and the count part for a moment with every job, and a person may be answering already.
  {
    ...{ matter: "countDoubtful", judge: judgeDoubt, ...measured, normalIn: ["settingUp"] },
    ...held(60 * secondMs, 5 * secondMs),
  },
  // Thermometers spike; air that is really too hot stays so.
  { matter: "tooHot", judge: judgeHeat, ...foreseen, ...held(60 * secondMs, 30 * secondMs) },
  // The sun keeps its times; clouds are not known.
  { matter: "sunComing", judge: judgeSun, ...foreseen, ...held(0, 0) },
  // Doors are opened and closed; people feel heat by its duration.
  {
    ...{
      matter: "heatForGuests",
      judge: judgeHeatForGuests,
      ...measured,
      ...held(2 * minuteMs, 5 * minuteMs),
    },
    concerns: "both",
  },
  // A hygrometer that comes in from the cold needs a while itself.
  { matter: "condensation", judge: judgeCondensation, ...foreseen, ...held(2 * minuteMs, minuteMs) },
  // The silence itself is the holding time.
  {
    ...{ matter: "agentSilent", judge: judgeSilence, ...measured, ...whileMoved, ...held(0, 0) },
    ...{ concerns: "both", underSiteDark: false },
  },
  // A plug that is moved from one socket to another.
  {
    ...{ matter: "onBattery", judge: judgeBattery, ...measured, ...whileMoved },
    ...held(20 * secondMs, 10 * secondMs),
  },
  // Programs make and delete large files all the time.
  { matter: "diskShort", judge: judgeDisk, ...lasting, ...held(2 * minuteMs, minuteMs) },
  // One slow network makes one wrong sample.
  { matter: "clockOff", judge: judgeClock, ...lasting, ...held(minuteMs, minuteMs) },
  // A camera falls asleep, or starts anew after its battery was changed; its source has looked three times already.
  {
    ...{ matter: "cameraGone", judge: judgePeer("camera"), ...measured, ...whileMoved },
    ...held(30 * secondMs, 10 * secondMs),
  },
  // A tablet's Wi-Fi sleeps with its screen.
  {
    ...{ matter: "tabletGone", judge: judgePeer("tablet"), ...measured, ...whileMoved },
    ...held(2 * minuteMs, 30 * secondMs),
  },
  {
    ...{ matter: "routerGone", judge: judgePeer("router"), ...measured, ...whileMoved },
    ...held(minuteMs, 30 * secondMs),
  },
  // A venue's network drops for a minute or two all evening long.
  {
    ...{ matter: "uplinkLost", judge: judgePeer("uplink"), ...measured, ...whileMoved },
    ...held(2 * minuteMs, minuteMs),
  },
  // Half an hour without guests has passed before it is one.
  { matter: "boothIdle", judge: judgeIdle, ...foreseen, ...held(minuteMs, 0) },
  // Two prints in a row have come out wrong before it is one; tests of other sizes are made while setting up.
  {
    ...{ matter: "wrongPrintSize", judge: judgePrintSize, ...measured, ...held(5 * secondMs, 5 * secondMs) },
    normalIn: ["settingUp"],
  },
  // The last guests have had their time; the owner decides what an overrun costs.
  { matter: "overrun", judge: judgeOverrun, ...lasting, ...held(0, 0), concerns: "both" },
  // Doors that open two minutes late are on time.
  { matter: "notOpen", judge: judgeNotOpen, ...measured, ...held(2 * minuteMs, 0), concerns: "both" },
  {
    ...{ matter: "testNotReceived", judge: judgeTest, ...lasting, ...held(minuteMs, 0) },
    ...{ concerns: "both", underSiteDark: false },
  },
  // A phone that signs in anew is without a way for a moment.
  {
    ...{ matter: "attendantUnreached", judge: judgeAttendant, ...lasting, ...held(minuteMs, 0) },
    ...{ concerns: "owner", underSiteDark: false },
  },
  { matter: "updatePending", judge: judgeUpdate, ...lasting, ...held(minuteMs, 10 * secondMs) },
  { matter: "sleepOn", judge: judgeSleep, ...lasting, ...held(minuteMs, 10 * secondMs) },
  // Half an hour of difference has passed before it is one.
  {
    ...{ matter: "countsDiffer", judge: judgeDifference, ...lasting, ...held(minuteMs, minuteMs) },
    concerns: "owner",
  },
];

function held(holdMs: number, clearHoldMs: number): Pick<Rule, "holdMs" | "clearHoldMs"> {
  return { holdMs, clearHoldMs };
}

const byMatter: ReadonlyMap<Matter, Rule> = new Map(rules.map((rule) => [rule.matter, rule]));

/** The rule of a matter; throws for a matter without one, which is a row that was forgotten. */
export function ruleOf(matter: Matter): Rule {
  const rule = byMatter.get(matter);
  if (rule === undefined) throw new Error(`no rule for ${matter}`);
  return rule;
}
