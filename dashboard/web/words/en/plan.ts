import type { LoadItem } from "@boothward/shared-types/planView";
import type { PowerPlan } from "@boothward/shared-types/power";
import { capital, numberWord } from "./today.ts";

const rolls = (n: number) => `${numberWord(n)} ${n === 1 ? "roll" : "rolls"}`;

/** The English texts of what follows from a booking. */
export const plan = {
  asking: "Working out the plan.",
  loadOut: "What goes into the van",
  doorSign: "Door sign",
  copy: "Copy to another date",
  rolls: "Paper",
  bring: (n: number, kit: string, forEvening: number) =>
    forEvening === 0
      ? `Bring ${rolls(n)} of ${kit}: what is loaded is enough, and one stays at the booth as a spare.`
      : `Bring ${rolls(n)} of ${kit}: ${numberWord(forEvening)} for the evening, and one that stays at the booth as a spare.`,
  why: (most: string, usual: string) =>
    `Of a hundred evenings like this, ninety-nine use at most ${most} sheets, and half of them ${usual} or fewer.`,
  each: (usable: string, waste: string) =>
    `A roll gives ${usable}, as up to ${waste} go to waste when it is put in.`,
  beside: (loaded: string) => `${loaded} are loaded already.`,
  basis: {
    learned: (n: number) =>
      n === 1
        ? "From one earlier evening of this kind."
        : `From ${numberWord(n)} earlier evenings of this kind.`,
    planned: () => "From guests, hours and kind of event alone; earlier evenings of the kind will better it.",
    blind: () => "Neither guests nor a known kind of event are written here: a wide guess.",
  },
  short: (n: number) =>
    `The booking has ${rolls(n)} too few as spares: change its number, or what you bring.`,
  power: "Power",
  noPower: "Nothing is written of its power yet: Change has the fields.",
  sun: "Sun",
  sunReaches: (times: string) => `The sun reaches the printer ${times}, if the sky is clear.`,
  sunAlways: "The sun does not set and reaches the printer all day, if the sky is clear.",
  sunNever: "No sun reaches the printer that day.",
  sunUnknown: "Not known: walls, heading or place are missing.",
  fromTo: (from: string, to: string) => `from ${from} to ${to}`,
  notes: "Notes",
  swap: "Another booth takes over",
  swapLead: (name: string) =>
    `If ${name} has to leave: its counts end now, and go on at the other booth, for the same event.`,
  swapTo: "Which booth takes over",
  swapNow: "Take over from now on",
  swapAsk: (from: string, to: string) => `Close ${from} at this event now and open ${to}?`,
  swapYes: "Yes, from now on",
  swapNo: "Leave it",
};

export const powerWords = {
  sum: (watts: string, amps: string) => `${watts} W together, ${amps} A.`,
  breaker: {
    fine: (pct: string, free: string) => `${pct} % of the breaker; ${free} W more may run for hours.`,
    near: (pct: string, over: string) =>
      `${pct} % of the breaker: more than 80 % for hours may trip it. Take ${over} W off, or use a second circuit.`,
    over: (pct: string, over: string) =>
      `${pct} % of the breaker: it will trip. Take ${over} W off, or use a second circuit.`,
  },
  noBreaker: "Without the breaker's figure nobody knows whether it holds. Ask the venue.",
  drop: {
    fine: (volts: string, pct: string) => `The cord loses ${volts} V, ${pct} %.`,
    near: (volts: string, pct: string) =>
      `The cord loses ${volts} V, ${pct} %: more than the advised 3 %. Shorter or thicker is better.`,
    over: (volts: string, pct: string) =>
      `The cord loses ${volts} V, ${pct} %: printers stop or restart at that. Take a shorter or thicker one.`,
  },
  longest: (length: string) => `At this load such a cord is good up to ${length}.`,
  overloaded: (carries: string) =>
    `It carries ${carries} A at most, laid out: it would get hot. Do not use it for this.`,
  carries: (carries: string) => `It carries ${carries} A, laid out; far less on a reel.`,
  battery: (hours: string) => `The battery lasts about ${hours}.`,
  batteryShort: "That is less than the open hours and an hour to set up.",
  caution:
    "Advice only. Local codes and a licensed person decide; the venue says which outlet is for you. Outdoors, only by an outlet with a residual-current (GFCI) breaker, and a generator runs outside, far from every opening.",
  source: {
    mains: "An outlet of the venue",
    generator: "A generator",
    battery: "A battery",
  } satisfies Record<PowerPlan["source"], string>,
};

export const planForm = {
  people: "People and print (if you like)",
  sizes: "Sizes of print",
  size: { "4x6": "4x6", "2x6": "2x6 strips", "6x8": "6x8" },
  prints: "Prints a session",
  printsHint: "As agreed; a strip is one print.",
  event: "Same event as",
  eventNone: "an event of its own",
  promised: "Promised to stand ready by",
  travel: "Drive to the place, minutes",
  breaks: "Breaks",
  from: (n: number) => `Break ${n}, from`,
  to: (n: number) => `Break ${n}, to`,
  addBreak: "Another break",
  notes: "Notes",
  notesHint: "Where to unload, whom to ask for; not shown to guests.",
  power: "Power (if you like)",
  source: "Where it comes from",
  sourceNone: "not known yet",
  volts: "Volts",
  breaker: "Breaker, amperes",
  breakerHint: "As marked on it; others may hang on it too.",
  cordLength: (unit: string) => `Cord, ${unit}`,
  cordHint: "Empty: without one.",
  cordSize: "Its conductors",
  battery: "Battery, watt-hours",
  loads: "What hangs on it",
  what: (n: number) => `Load ${n}`,
  watts: "Its watts",
  addLoad: "Another load",
  usual: ["Printer", "Computer and screen", "Camera", "Lights"],
  notYet: "Write volts, and watts of what hangs on it, and the sum stands here.",
};

export const horizonForm = {
  title: "What stands around it, for its sun (if you like)",
  lead: "Houses, trees or hills as seen from the booth, clockwise. North is 0, east 90, south 180, west 270; a fist at arm's length is about 10 degrees high.",
  measured: (n: number) => `A horizon of ${n} points is kept; what you write here takes its place.`,
  fromDeg: (n: number) => `Thing ${n}, from (degrees)`,
  toDeg: (n: number) => `Thing ${n}, to (degrees)`,
  elevationDeg: (n: number) => `Thing ${n}, how high (degrees)`,
  add: "Something else",
};

export const loadOutWords = {
  title: "What goes into the van",
  asking: "Making the list.",
  toLoad: (n: number) =>
    n === 1 ? "One thing is still to load." : `${capital(numberWord(n))} things are still to load.`,
  allIn: "All of it is in the van.",
  back: "Run sheet",
  backToChecks: "Opening checks",
  print: "Print the list",
  by: (who: string, at: string) => `${who}, ${at}`,
  event: (booth: string, client: string) => `${booth} · ${client}`,
  when: (day: string, from: string, to: string) => `${day}, ${from} to ${to}`,
  count: (n: number, item: string) => `${n} × ${item}`,
  gone: "There is no such entry on the run sheet.",
  move: (n: number, booth: string) =>
    `In the stock: ${n} ${n === 1 ? "roll" : "rolls"} from the store into ${booth}'s case`,
  moved: (n: number, booth: string) =>
    `In the stock ${n} ${n === 1 ? "roll has" : "rolls have"} gone from the store into ${booth}'s case.`,
  putBack: "Put them back in the stock",
};

export const loadWords: Record<LoadItem, string> = {
  booth: "Booth, its stand or shell",
  camera: "Camera and its power supply",
  screen: "Booth computer or tablet, charged",
  printer: "Printer",
  printerCable: "Printer's cables, power and data",
  rolls: "rolls, paper and ribbon together",
  cord: "Extension cords, unrolled when used",
  powerStrip: "power strip with its switch",
  cordCovers: "Cord covers and mats",
  generator: "generator, with its fuel in a safe can",
  battery: "Battery, charged, with its charger",
  network: "Router or phone for the network",
  lights: "Lights and stands",
  backdrop: "Backdrop and its stand",
  greyCard: "Grey card",
  cleaning: "Cleaning kit for printer and lens",
  spareCables: "Spare cables and card",
  tools: "Tools, torch",
  tape: "Tape that leaves no trace",
  levelling: "Levelling blocks and wheel chocks",
  awning: "Awning or shade: the sun reaches the printer",
  weights: "Weights for stands and awning",
  table: "Table for prints and props",
  doorSign: "door sign with hours and rules",
  firstAid: "First-aid kit",
  extinguisher: "fire extinguisher",
};

export const sign = {
  title: "Door sign",
  asking: "Making the sign.",
  lead: "It prints on one page. The lines below may be changed before.",
  photo: "Photo booth",
  hours: (from: string, to: string) => `Open ${from} to ${to}`,
  breaks: (times: string) => `Break ${times}`,
  rules: "Lines on the sign, one each",
  usual: [
    "At most six people at a time",
    "Drinks stay outside",
    "Please do not lean on the walls",
    "Children with a grown-up",
    "Something is wrong? Tell the attendant",
  ],
  print: "Print the sign",
};
