/** The English texts of what is weighed before paper is changed or saved, and of waiting. */
export const advice = {
  advised: (at: string, isInLull: boolean) => `Best ${isInLull ? "in the lull, " : ""}${at}`,
  atEmpty: (at: string) => `When it is empty, about ${at}`,
  waits: (groups: number) =>
    groups < 0.5
      ? "hardly anybody waits"
      : groups < 1.5
        ? "about one group waits"
        : `about ${Math.round(groups)} groups wait`,
  aside: (sheets: number) =>
    sheets < 1
      ? "nothing is set aside"
      : Math.round(sheets) === 1
        ? "one sheet goes back in the box"
        : `${Math.round(sheets)} sheets go back in the box`,
  emptyBefore: (chance: string) => `${chance} that it is empty before that.`,
  inHundred: (n: number) => `${n} in 100`,
  onePrintLatest: (at: string, risk: string) =>
    `If no roll comes, one print a session, begun by ${at}, keeps the risk of running out at ${risk}.`,
  onePrintNow: (risk: string) =>
    `If no roll comes, one print a session from now on still keeps the risk of running out at ${risk}.`,
  onePrintShort: (chance: string) =>
    `One print a session from now on lasts to close with a chance of ${chance}: not enough by itself.`,
  noneNeeded: "No other roll is needed.",
  needed: (n: string, isOne: boolean) => `${n} more ${isOne ? "roll makes" : "rolls make"} sure of the close`,
  there: (n: string, isOne: boolean) => `, and ${n} ${isOne ? "is" : "are"} at the booth.`,
  short: (n: string, isOne: boolean, short: string) =>
    `; ${n} ${isOne ? "is" : "are"} at the booth, ${short} short.`,
  none: ", and none is at the booth.",
  plain: ".",
  printReady: (length: string) => `A print is ready in about ${length}.`,
  boothFree: (length: string) => `Who comes now waits about ${length} for the booth.`,
  seconds: (n: number) => `${n} seconds`,
};
