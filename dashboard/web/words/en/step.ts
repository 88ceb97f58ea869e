/** The English texts of the next thing to do at a booth. */
export const step = {
  now: "now",
  at: (at: string) => `at ${at}`,
  by: (at: string) => `by ${at}`,
  inLull: ", in the lull",
  change: (when: string, lull: string) => `Change the roll ${when}${lull}.`,
  letRunOut: (at: string) => `Let the roll run out, about ${at}, then change it.`,
  atHand: "Have the next one at hand by then.",
  bring: (when: string) => `Bring a roll ${when}: none is left at the booth.`,
  left: (empty: string) => `Left as it is, it is empty about ${empty}.`,
  noSpare: "No spare is at the booth.",
  stalled: "Look at the printer.",
  stalledSince: (at: string) => `Prints wait, and none has come out since ${at}.`,
  fitted: (at: string) => `Did you fit a new roll at ${at}?`,
  howMany: "How many sheets are left?",
};
