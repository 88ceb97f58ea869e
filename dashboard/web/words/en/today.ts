/** The English texts of Today. */
const numbers = ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

export const numberWord = (n: number): string => numbers[n] ?? String(n);

export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "Juniper", "Juniper and Thistle", "Juniper, Thistle and Sorrel". */
export const listed = (names: readonly string[]): string =>
  names.length < 2 ? (names[0] ?? "") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;

export const nameOf = (name: string, isTrailer: boolean): string =>
  isTrailer ? `The trailer ${name}` : name;

/** An AND of some: "The other three", "The other one". */
const others = (n: number): string => (n === 1 ? "The other one" : `The other ${numberWord(n)}`);

export const verdict = {
  nothing: "No booth is connected yet.",
  nothingMore: "A few minutes a booth. The booth program is not touched.",
  allMakeIt: (name: string, n: number) =>
    n === 1
      ? `${name} will make it to close.`
      : `${n === 2 ? "Both" : `All ${numberWord(n)}`} will make it to close.`,
  nothingNeeded: "Nothing needs you now.",
  noPromise: (names: readonly string[]) =>
    `${listed(names)}: ${names.length === 1 ? "how long the paper lasts is" : "how long their paper lasts is"} not known.`,
  noHours: (names: readonly string[]) => `${listed(names)}: no open hours on the run sheet.`,
  severalNow: (n: number) => `${capital(numberWord(n))} booths need somebody now.`,
  severalSoon: (n: number) =>
    n === 1
      ? "Another booth needs something soon."
      : `${capital(numberWord(n))} more booths need something soon.`,
  stopped: (name: string) => `${name} has stopped.`,
  handNeeded: (name: string) => `${name} needs a hand.`,
  watched: (name: string) => `Keep an eye on ${name}.`,
  severalWatched: (n: number) => `Keep an eye on ${numberWord(n)} booths.`,
  named: (name: string, sentence: string) => `${name}: ${sentence}`,
  silent: (name: string, length: string) => `${name} has been silent for ${length}.`,
  severalSilent: (n: number) => `${capital(numberWord(n))} booths are silent.`,
  unknown: (names: readonly string[]) =>
    `How ${listed(names)} ${names.length === 1 ? "is" : "are"} is not known.`,
  neverHeard: (names: readonly string[]) =>
    `${listed(names)} ${names.length === 1 ? "has" : "have"} not been heard yet.`,
  othersMakeIt: (n: number) => `${others(n)} will make it to close.`,
  othersQuiet: (n: number) => `${others(n)} ${n === 1 ? "needs" : "need"} nothing now.`,
  next: (name: string, at: string) => `Next: ${name} opens at ${at}.`,
  cutOff: (length: string) => `No word from the dashboard for ${length}.`,
  before: (sentence: string) => `Before that: ${sentence}`,
};

export const invented = {
  banner: (names: readonly string[]) =>
    `Invented evening “${listed(names)}”. No real booth stands behind what you see.`,
  some: (names: readonly string[]) => `${listed(names)}: an invented evening, no real booth.`,
  mark: "Invented evening",
};

export const chip = {
  fine: "Fine",
  watch: "Watch",
  needsAHand: "Needs a hand",
  stopped: "Stopped",
  silent: "Silent",
  unknown: "Unknown",
  settingUp: "Setting up",
  packingDown: "Packing down",
};

export const card = {
  left: "left",
  then: "then",
  about: "about",
  figure: {
    metered: () => "from the printer",
    counted: () => "counted",
    confirmed: (by: string | null) => `confirmed by ${by ?? "a person"}`,
    doubtful: () => "please check",
  },
  noFigure: "not known",
  rollLabel: (left: string, kit: string) => `Roll: ${left} of ${kit} sheets left`,
  rollUnknown: "How much is on the roll is not known",
  ago: (age: string) => `${age} ago`,
  never: "never heard",
  neverHeard: "Not heard yet. Set-up shows how to pair its computer.",
  silentWell: (at: string) => `At ${at} it would have made it. What it counts comes in later.`,
  silentShort: (at: string, empty: string) =>
    `At ${at} its paper would have ended about ${empty}. What it counts comes in later.`,
  silentPlain: (at: string) => `Nothing heard since ${at}. What it counts comes in later.`,
  staleData: (at: string) => `As it was at ${at}.`,
  noHours: "No open hours on the run sheet now.",
  noPaper: "How much paper is left is not known.",
  noPrinter: "Whether the printer can print is not known.",
  noRate: "Too few prints yet to say how long the paper lasts.",
  settingUp: "It is being set up: nobody is called for it yet.",
  settingUpTo: (at: string) => `It is being set up: nobody is called for it before doors at ${at}.`,
  packingDown: "It is being packed down: nobody is called for it.",
  opens: (at: string) => `Opens at ${at}`,
  closed: (at: string) => `Closed at ${at}.`,
  lasts: "Lasts to close",
  spare: (n: string) => `, about ${n} to spare.`,
  justLasts: (chance: string) => `May only just last to close: ${chance}.`,
  endsAbout: (at: string) => `The paper ends about ${at}, before the close.`,
  inTen: (n: number) => `${n} chances in 10`,
  heat: (now: string, limit: string) => `${now}, limit ${limit}.`,
  heatOld: (then: string, at: string) => `${then} at ${at}, not seen since.`,
};

export const strip = {
  now: "now",
  /** 00:00 is easily taken for the wrong end of a day. */
  clock: (time: string) => (/^0?0:00$/.test(time) ? "midnight" : time),
  out: (at: string) => `out ${at}`,
  stopped: (at: string) => `stopped ${at}`,
  last: (at: string) => `last ${at}`,
  close: (at: string) => `close ${at}`,
  roll: (at: string) => `roll ${at}`,
  change: (at: string) => `change ${at}`,
  lull: "lull",
  from: (at: string) => `from ${at}`,
};
