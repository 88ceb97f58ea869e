/** The English texts of the page of one booth. */
export const boothPage = {
  back: "Today",
  gone: "This booth is not known here.",
  goneMore: "It may have been taken out in Set-up.",
  table: "The same as a table",
  by: (at: string) => `Latest moment ${at}.`,
};

export const paper = {
  none: "How much paper is left is not known.",
  left: (figure: string) => `${figure} sheets left`,
  lasts: ": the paper lasts to close.",
  mayLast: (chance: string) => `: it may only just last, ${chance}.`,
  until: (empty: string, close: string) => `, enough until about ${empty}; close is at ${close}.`,
  then: (figure: string, at: string) => `${figure} sheets left at ${at}, when it was last heard.`,
  noHours: "; no open hours to compare with.",
  plain: ".",
  band: (from: string, to: string) => `Empty between ${from} and ${to}, eight times in ten.`,
  bandOpen: (from: string) => `One time in ten it is empty by ${from}.`,
  noBand: (from: string, to: string) => `At close ${from} to ${to} left, eight times in ten.`,
  usedInk: "Filled: used so far.",
  fanInk: "Blue: expected.",
  large: "From now on, in large",
  whole: "The whole evening",
  dots: "Grey dots: after the change that is advised.",
  marks: {
    open: "opens",
    now: "now",
    fitted: "roll fitted",
    lull: "the lull begins",
    lullEnd: "the lull ends",
    change: "change advised",
    empty: "empty, likeliest",
    close: "close",
  },
  within: (from: string, to: string) => `${from} to ${to}`,
  oldInk: "Filled: used by then. Strokes: what was expected then.",
  label: "Sheets left through the evening.",
  columns: ["Time", "Sheets left", "8 in 10 within"],
};

export const heat = {
  none: "No temperature is read at this booth.",
  old: (then: string, at: string) => `${then} at ${at}; not seen since.`,
  rising: (now: string, limit: string) => `${now} and rising; limit ${limit}.`,
  falling: (now: string, limit: string) => `${now} and falling; limit ${limit}.`,
  steady: (now: string, limit: string) => `${now}; limit ${limit}.`,
  over: (now: string, limit: string) => `${now}: over the limit of ${limit}.`,
  cap: "At the printer, the last two hours as measured.",
  capAhead:
    "At the printer: two hours as measured, then the next hour as expected, eight times in ten in the strokes.",
  tooFew: "Not enough readings yet for a curve.",
  limit: "limit",
  now: "now",
};

export const sessions = {
  none: "No session has been counted yet.",
  soFar: (n: string, peak: string, at: string) =>
    `${n} sessions so far; the most in a quarter-hour was ${peak}, at ${at}.`,
  cap: "Sessions per quarter-hour, as counted.",
  columns: ["From", "Sessions", "Sheets"],
};
