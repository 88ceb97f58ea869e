/** The English texts of the three buttons of an alert and of what comes of them. */
export const answers = {
  button: { take: "I’m on it", later: "Later", done: "Done" },
  group: (headline: string) => `Answer: ${headline}`,
  yours: (at: string) => `Yours since ${at}.`,
  taken: (by: string, at: string) => `${by} is on it since ${at}.`,
  asksAgain: (at: string) => `Asks again at ${at}.`,
  putOff: "Put off.",
  kept: "Kept, sends when the booth is reached.",
  looking: (at: string) => `Done at ${at}. Waiting to see it.`,
  noRollYet: "We do not see a new roll yet. If it is in, say so below.",
  notSeenYet: "We do not see it yet.",
};
