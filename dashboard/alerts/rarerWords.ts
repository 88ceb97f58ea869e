import type { Matter } from "@boothward/shared-types";
import { condensationWords, guestHeatWords, sunWords } from "./airWords.ts";
import type { RarerMatter } from "./commonWords.ts";
import {
  attendantWords,
  idleWords,
  notOpenWords,
  overrunWords,
  printSizeWords,
  testWords,
} from "./eveningWords.ts";
import { batteryWords, clockWords, diskWords, sleepWords, updateWords } from "./machineWords.ts";
import { differWords, doubtWords, sparesWords } from "./paperWords.ts";
import type { AlertWords, Telling } from "./telling.ts";
import { cameraWords, printerUnseenWords, routerWords, tabletWords, uplinkWords } from "./unseenWords.ts";

const words: Readonly<Record<RarerMatter, (telling: Telling) => AlertWords>> = {
  printerUnseen: printerUnseenWords,
  condensation: condensationWords,
  heatForGuests: guestHeatWords,
  onBattery: batteryWords,
  diskShort: diskWords,
  clockOff: clockWords,
  cameraGone: cameraWords,
  tabletGone: tabletWords,
  routerGone: routerWords,
  uplinkLost: uplinkWords,
  boothIdle: idleWords,
  wrongPrintSize: printSizeWords,
  overrun: overrunWords,
  notOpen: notOpenWords,
  testNotReceived: testWords,
  attendantUnreached: attendantWords,
  updatePending: updateWords,
  sleepOn: sleepWords,
  sunComing: sunWords,
  sparesShort: sparesWords,
  countDoubtful: doubtWords,
  countsDiffer: differWords,
};

/** The texts of what not every event sees, in English. Throws for what `commonWords` has the words for. */
export function rarerWords(telling: Telling): AlertWords {
  const { matter } = telling.alert;
  if (!isRarer(matter)) throw new Error(`${matter} is no rarer matter`);
  return words[matter](telling);
}

function isRarer(matter: Matter): matter is RarerMatter {
  return Object.hasOwn(words, matter);
}
