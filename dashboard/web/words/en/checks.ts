import type { CheckName } from "@boothward/shared-types/planView";
import type { Readiness } from "@boothward/shared-types/words";
import { capital, numberWord } from "./today.ts";

/** The English texts of the opening checks and of where a booth stands. */
export const checks = {
  title: "Opening checks",
  asking: "Asking for the checks.",
  noEvent: (name: string) => `No event of ${name} is near.`,
  noEventMore: "The checks come with a booking on the run sheet, half a day before its doors at the latest.",
  runSheet: "Run sheet",
  toDo: (n: number, at: string) =>
    `${capital(numberWord(n))} ${n === 1 ? "thing" : "things"} to do before doors at ${at}.`,
  allDone: (at: string) => `All is checked. Doors at ${at}.`,
  openToDo: (n: number, at: string) =>
    `Open since ${at}; ${numberWord(n)} ${n === 1 ? "thing is" : "things are"} still to do.`,
  openAllDone: (at: string) => `Open since ${at}. All is checked.`,
  over: (at: string) => `Closed at ${at}.`,
  promised: (at: string) => `It was promised to stand ready by ${at}.`,
  counted: (done: number, all: number) => `${done} of ${all} are checked.`,
  notSeen: (n: number) =>
    n === 0
      ? ""
      : `${capital(numberWord(n))} cannot be seen here: ${n === 1 ? "a look" : "a look each"} settles it.`,
  lists: { toDo: "To do", notSeen: "Not possible to see here", seen: "Checked" },
  pages: { "load-out": "What goes into the van", "door-sign": "Door sign" },
  seenNote: "What is marked Seen was seen by the booth; nobody needs to press anything.",
  state: {
    seen: "Seen",
    ticked: "Ticked",
    toDo: "To do",
    question: "Please look",
    notPossible: "Not seen",
  },
  tick: "Done",
  looked: "It is so",
  untick: "Take back",
  of: (word: string, name: string) => `${word}: ${name}`,
  by: (who: string, at: string) => `${who}, ${at}`,
  seenAt: (at: string) => `seen ${at}`,
  readiness: "Where the booth stands",
  since: (word: string, at: string) => `${word} since ${at}.`,
  nothingSaid: "Nobody has said yet where the booth stands.",
  undo: "Take it back",
  closes: (at: string) => `It closes at ${at}.`,
  longer: (to: string) => `An hour longer, to ${to}`,
  spares: "Yes, they are here",
};

export const readinessWord: Record<Readiness, string> = {
  packed: "Packed",
  onSite: "On site",
  powered: "Powered",
  checked: "Checked",
  open: "Open",
  onBreak: "On break",
  closing: "Closing",
  packedDown: "Packed down",
};

/** What is pressed to say so. */
export const readinessSay: Record<Readiness, string> = {
  packed: "It is packed",
  onSite: "We are on site",
  powered: "It has power",
  checked: "It is checked",
  open: "Open the doors",
  onBreak: "Begin the break",
  closing: "Begin to close",
  packedDown: "It is packed down",
};

/** A line's name, and what to do where it is not done. */
export const checkLines: Record<CheckName, { name: string; how: string }> = {
  powerLocated: {
    name: "Outlets found before unloading",
    how: "Find the circuit you were given and what else hangs on it. A doubtful outlet is for the venue's electrician.",
  },
  level: { name: "Booth level and steady", how: "Push it at head height: it must not rock." },
  secured: {
    name: "Kit fixed, cords covered",
    how: "Screen, camera and lights fixed; stands weighted; no cord that a foot can catch.",
  },
  agentHeard: { name: "The booth is heard", how: "Start the booth computer and see that it has a network." },
  onMains: { name: "On mains", how: "It runs on its battery: plug it in." },
  clock: { name: "The clock is right", how: "Set the booth computer's clock: pictures carry its time." },
  disk: { name: "Room for the night's pictures", how: "Move older pictures off the disk." },
  update: { name: "No update waits", how: "Restart now, or put the update off until tomorrow." },
  sleep: { name: "The computer stays awake", how: "Turn its sleep off for tonight." },
  camera: { name: "Camera connected", how: "Check its cable, its power and that it is switched on." },
  printerAnswers: { name: "The printer answers", how: "Check its cable and what its display says." },
  paper: { name: "Paper on the printer", how: "Say on the booth's page what is on the roll." },
  paperEnough: { name: "Enough paper for today", how: "Fetch more rolls, or agree on fewer prints." },
  sparesThere: { name: "Spare rolls at the booth", how: "Count them in the box." },
  testPrint: {
    name: "One test sheet",
    how: "Press start in the booth once, before doors. It is not counted for the client.",
  },
  printSize: { name: "The right size came out", how: "Choose the planned size in the booth program." },
  whiteBalance: {
    name: "White balance on a grey card",
    how: "Under the lights of the evening, at the place of the guests.",
  },
  temperature: {
    name: "Not too warm for the printer",
    how: "Shade, a fan or an open door, before it is used.",
  },
  dewPoint: { name: "Nothing sweats", how: "Let what came in cold stand before it is switched on." },
  rulesPosted: { name: "Hours and rules posted", how: "The door sign is below, to print." },
  testAlert: {
    name: "An alert reaches somebody",
    how: "Send yourself one, with the phone as it will be tonight.",
  },
};

/** What was found, with its figures. */
export const found = {
  printerWaiting: (n: string) => `${n} waiting to print`,
  printerIdle: "nothing waiting",
  sheets: (n: string) => `${n} sheets on the roll`,
  asked: (n: string) => `about ${n} sheets; please look`,
  enough: (usual: string, most: string) => `about ${usual} needed, ${most} on the worst of ten evenings`,
  short: (needed: string, spares: string) =>
    `${needed} rolls beside the loaded one are needed, ${spares} are here`,
  shortUnknown: (needed: string) => `${needed} rolls beside the loaded one are needed`,
  spares: (n: number) =>
    n === 0 ? "The plan has none." : n === 1 ? "The plan has one." : `The plan has ${numberWord(n)}.`,
  mains: "on mains",
  battery: (pct: string) => `on battery, ${pct} %`,
  batteryPlanned: "on its battery, as planned",
  clockOff: (by: string) => `${by} off, corrected here`,
  clockRight: "right to the second",
  disk: (free: string, need: string) => `${free} free, about ${need} needed`,
  sleeps: (minutes: string) => `it goes to sleep after ${minutes}`,
  temperature: (now: string, limit: string) => `${now}, limit ${limit}`,
  willCross: (chance: string) => `${chance} in 100 that it passes the limit within the hour`,
  dew: (dew: string) => `dew point ${dew}`,
  sweats: (dew: string, wait: string) =>
    `dew point ${dew}, and it is colder outside: what came in cold stands ${wait} first`,
  sweatsOn: (dew: string) => `dew point ${dew}: what came in cold does not dry in this air`,
  reached: (who: string, way: string) => `${who}, by ${way}`,
  pitches: (n: string) => `it took ${n} lengths of 4x6`,
  planned: (sizes: string) => `planned: ${sizes}`,
  ways: {
    push: "push",
    email: "e-mail",
    webhook: "a call to another program",
    page: "the open page",
  } as Record<string, string>,
};
