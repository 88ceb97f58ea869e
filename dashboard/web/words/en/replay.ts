/** The English texts of how a forecast would have done at an evening that is over. */
export const replay = {
  open: "How the forecast did",
  asking: "Looking at that evening as if it were now.",
  verdict: {
    warned: (at: string, ahead: string, end: string) =>
      `It would have warned at ${at}, ${ahead} before ${end}.`,
    late: (at: string, ahead: string, end: string) =>
      `It would have warned only at ${at}, ${ahead} before ${end}.`,
    after: (at: string, end: string) => `It would have warned only at ${at}, after ${end}.`,
    missed: (end: string) => `It would not have warned before ${end}.`,
    lasted: "It would have kept quiet, and rightly: the roll lasted to close.",
    inVain: (at: string) => `It would have warned at ${at}, in vain: the roll lasted to close.`,
    unknown: "How much paper was loaded is not known, so that nothing can be said of a warning.",
  },
  end: {
    changed: (at: string) => `the roll was changed at ${at}`,
    empty: (at: string) => `the roll was empty at ${at}`,
    none: "the roll ended",
  },
  held: (held: string, asks: string) =>
    `${held} of ${asks} times, what was really used lay within its band; eight in ten is meant.`,
  notHeld: "There was not enough to forecast from.",
  counts: (sessions: string, sheets: string) => `${sessions} sessions used ${sheets} sheets.`,
  learned: (n: number) =>
    n === 0
      ? "It knew no earlier evening of this kind."
      : `It had learned from ${n} earlier ${n === 1 ? "evening" : "evenings"} of this kind.`,
  cap: (total: string) =>
    `Strokes: the whole evening's sheets as forecast at each moment, eight times in ten within; dot: the likeliest. Level line: the ${total} it came to. Curve: used so far.`,
  label: "The forecast of the evening's sheets against what was used.",
  warned: (at: string) => `warned ${at}`,
  columns: ["Time", "To the close, forecast", "Really used"],
  band: (likely: string, low: string, high: string) => `${likely} (${low} to ${high})`,
  noBand: "no forecast",
};
