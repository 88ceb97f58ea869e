import type { FaultWord, PrinterStateWord } from "@boothward/shared-types/words";

/** The English texts of the list of facts of a booth, and of what was counted by what. */
export const facts = {
  attend: "As the attendant sees it",
  checks: "Opening checks",
  title: "Facts",
  unknown: "not known",
  left: "Sheets left",
  figure: {
    metered: (at: string) => `from the printer, ${at}`,
    counted: (at: string) => `counted, ${at}`,
    confirmed: (at: string, by: string | null) => `confirmed by ${by ?? "a person"}, ${at}`,
    doubtful: (at: string) => `please check the paper, ${at}`,
  },
  between: (low: string, high: string) => `between ${low} and ${high}`,
  partial: (sheets: string) => `and part rolls of ${sheets}`,
  rate: "Sheets an hour, lately",
  fitted: "Roll fitted",
  spares: "Rolls at the booth",
  sparesNote: "as on the run sheet, less those fitted",
  sessions: "Sessions",
  used: "Sheets used",
  each: (n: string) => `${n} a session`,
  reprints: "Reprints",
  tests: "Test sheets",
  digitalOnly: "Sessions without a print",
  differ: "The counts differ",
  differs: (other: string, by: string, counted: string) => `${other} ${by}, ${counted} counted`,
  differsNote: (what: string, at: string) => `${what}, since ${at}`,
  printWait: "A print is ready in",
  boothWait: "Wait for the booth",
  printer: "Printer",
  waiting: "Waiting to print",
  inside: "At the printer",
  per15: (change: string, isUp: boolean) => `${isUp ? "rising" : "falling"} ${change} in 15 min`,
  steady: "steady",
  readAt: (at: string) => `read at ${at}`,
  outside: "Outside",
  humidity: "Humidity",
  pct: (n: string) => `${n} %`,
  dewPoint: "Dew point",
  dewNote:
    "What is colder than this sweats: let a printer or paper that came in cold stand before it is used.",
  people: "For people",
  feels: (temperature: string, category: string | null) =>
    category === null ? `feels like ${temperature}` : `feels like ${temperature}: ${category}`,
  heatCategory: {
    caution: "caution",
    extremeCaution: "extreme caution",
    danger: "danger",
    extremeDanger: "extreme danger",
  },
  heatCaution: {
    notASafetyDevice:
      "From one thermometer, in the shade; no safety device. A person who feels unwell, local rules and emergency services come first.",
    dangerForPeople: "Dangerous for people, whatever the printer stands: out of it, shade, water.",
    closedTrailer: "Nobody, no child and no animal, stays in a closed trailer in the sun.",
  },
  power: "Power",
  mains: "on mains",
  battery: (pct: string | null) => (pct === null ? "on battery" : `on battery, ${pct} %`),
  clock: "Booth computer's clock",
  clockRight: "right to the second",
  clockOff: (by: string, isBehind: boolean) => `${by} ${isBehind ? "behind" : "ahead"}`,
  corrected: "corrected here",
  link: "Link to the booth",
  linked: "open",
  unlinked: "down",
  keptAside: "Kept aside",
  keptItems: (n: number) => `${n} ${n === 1 ? "item" : "items"} could not be read`,
  event: "Event",
  attendant: "Attendant",
  guests: "Guests",
  faults: "Not readable",
};

export const printerState: Record<PrinterStateWord, string> = {
  idle: "ready",
  processing: "printing",
  stopped: "stopped",
};

export const faultWords: Record<FaultWord, string> = {
  timeout: "did not answer in time",
  unreachable: "cannot be reached",
  unsupported: "cannot be read on this computer",
  refused: "refuses to answer",
  notFound: "is not known there",
  unreadable: "gives what cannot be read",
  missing: "is not there",
};

export const countedBy = {
  sessions: {
    hook: "told by the booth program",
    layouts: "by finished layouts",
    shots: "by groups of shots",
    jobs: "by groups of print jobs",
  },
  pitches: {
    counter: "by the printer's own counter",
    jobs: "by print jobs",
    layouts: "by layouts and copies",
    hook: "told by the booth program",
  },
  nothing: "nothing counts them here",
};
