/** The English texts of the next hour's temperature, of its table, and of the sun in the table of the evening. */
export const heatAhead = {
  tooFewAhead: "Not enough readings yet for a look ahead.",
  passes: (limit: string, at: string, chance: string) =>
    `Passes ${limit} about ${at} as it goes; ${chance} that it does within the hour.`,
  mayPass: (limit: string, chance: string) =>
    `Stays below ${limit} as it goes; ${chance} that it passes it within the hour.`,
  staysBelow: (limit: string) => `Stays below ${limit} for the next hour, as far as can be seen.`,
  staysOver: "As it goes, it is still above it in an hour.",
  coolsBy: (limit: string, at: string) => `As it goes, it is below ${limit} again about ${at}.`,
  at: (sensor: string) => `At ${sensor}: `,
  inTen: (word: string) => `${word} in ten`,
  hardly: "less than one in ten",
  slowingByHeat: (lateS: string, usualS: string) =>
    `It prints slower as it warms: ${lateS} seconds a sheet lately, ${usualS} before. Many printers pause like this before they stop.`,
  slowing: (lateS: string, usualS: string) =>
    `It prints slower, and not for heat: ${lateS} seconds a sheet lately, ${usualS} before. Look at paper, ribbon and cable.`,
  pause: (length: string, groups: number, clear: string) =>
    `${length} of rest for it now would make ${groups === 0 ? "hardly anybody" : groups === 1 ? "about one group" : `about ${groups} groups`} wait; ${clear} after it the line is gone.`,
  pauseStays: (length: string) =>
    `${length} of rest for it now would make a line that stays: more guests come than it can print for.`,
  columns: ["Time", "At the printer", "8 in 10 within"],
  measured: "Measured",
  expected: (sensor: string | null) => (sensor === null ? "Expected" : `Expected at ${sensor}`),
};

export const sunWords = {
  sunBand: (stretches: string) => `The band on top is the sun on the printer, ${stretches}.`,
  sunAlways: "The sun does not set: the band on top is the sun on the printer, all day.",
  noSun: "No sun on the printer in these hours.",
  sunFromTo: (from: string, to: string) => `${from} to ${to}`,
  on: "sun on the printer",
  off: "sun off the printer",
};
