/** The English texts of Stock. */
const several = (n: number, word: string) => `${n} ${word}${Math.abs(n) === 1 ? "" : "s"}`;
export const rollCount = (n: number) => several(n, "roll");

export const stock = {
  title: "Stock",
  asking: "Asking for the stock.",
  empty: "No rolls are written down yet.",
  emptyLead: "Count what is in the store, and this page tells you by when to order.",
  countFirst: "Count the rolls first.",
  countFirstLead:
    "How many there are is not known. When store and cases are counted, this page tells you by when to order.",
  orderNow: (rolls: string) => `Order ${rolls} now.`,
  orderBy: (rolls: string, day: string) => `Order ${rolls} by ${day}.`,
  noOrder: (day: string) => `No order is needed before ${day}.`,
  tooLateFor: (day: string) => `What is on order may come too late for ${day}.`,
  tooLateHelp: "Ask the supplier for the day, or see where rolls can be had until then.",
  late: "Even an order of today may come too late.",
  have: (atHand: string, onOrder: number) =>
    `${atHand} at hand${onOrder === 0 ? "" : `, ${onOrder} on order`}.`,
  needed: (n: number) => `${rollCount(n)} would be safe until an order of today comes.`,
  lead: (about: string, give: string, orders: number) =>
    orders === 0
      ? `No order has come yet; it is taken to need about ${about}, give or take ${give}.`
      : `An order takes about ${about}, give or take ${give}, by ${several(orders, "order")} that came.`,
  days: (n: number) => (n >= 13.5 ? `${Number((n / 7).toFixed(1))} weeks` : several(Math.round(n), "day")),
  weekly: (mean: string, weeks: number) => `Lately ${mean} rolls a week, over ${weeks} weeks.`,
  noWeekly: "Weeks that are not on the run sheet count as empty until four weeks of use are known.",
  service: "How sure to be of having enough until the order comes",
  services: { "0.95": "19 in 20", "0.99": "99 in 100" },
};

export const stockPlaces = {
  title: "Where the rolls are",
  store: "In the store",
  case: (booth: string) => `${booth}'s case`,
  event: (client: string) => `At ${client}`,
  goneEvent: "At an event that was taken off the run sheet",
  order: "On order",
  used: "used up",
  lost: "lost",
  unexplained: "unexplained",
  supplier: "bought",
  none: "No rolls",
  parts: (sheets: readonly number[]) =>
    sheets.length === 1
      ? `and a part roll with ${sheets[0]} sheets`
      : `and ${sheets.length} part rolls with ${sheets.join(", ")} sheets`,
  owes: (n: number) =>
    `${rollCount(n)} more left here than anybody wrote down. Count what is here to set it right.`,
  missing: (sheets: readonly number[]) =>
    `A part roll left here that was not known: ${sheets.join(", ")} sheets. Count what is here.`,
  isOver: "This event is over. If these rolls came back, say where they are now.",
  back: (place: string) => `Back: ${place}`,
  totals: (bought: number, used: number, lost: number) =>
    `Of ${rollCount(bought)} bought, ${used} ${used === 1 ? "is" : "are"} used up and ${lost} lost.`,
  unexplainedShort: (n: number) => `Counts found ${rollCount(n)} fewer than were written down.`,
  unexplainedOver: (n: number) => `Counts found ${rollCount(n)} more than were written down.`,
};

export const stockAhead = {
  title: "What the next events will use",
  none: "Nothing is on the run sheet ahead.",
  sentence: (events: number, about: string) =>
    `The next ${several(events, "event")} will use about ${about} rolls.`,
  columns: ["Event", "About", "At most", "Left after it"],
  hint: "At most: nineteen in twenty such events use no more. Rolls on order are not counted.",
  unnamed: "An event",
};

export const stockOrders = {
  title: "On order",
  line: (rolls: string, day: string) => `${rolls}, ordered ${day}`,
  expected: (day: string) => `expected ${day}`,
  came: (arrived: number, rolls: number) => `${arrived} of ${rolls} came`,
  overdue: "It should have come by now: ask where it is. Until it comes, do not count on these rolls.",
  they: "They came",
  howMany: "Rolls that came",
  put: "Put them into the store",
};

export const stockForms = {
  count: "Count",
  move: "Move rolls",
  order: "Write down an order",
  place: "Where",
  fullRolls: "Full rolls there now",
  partials: "Sheets on each part roll",
  partialsHint: "With a space between them: 158 90. Empty: there are none.",
  partialsWrong: "Write whole numbers with a space between them, as in 158 90.",
  countSend: "This is what is there",
  from: "From",
  to: "To",
  rolls: "Full rolls",
  part: "Or the sheets of one part roll",
  moveSend: "Move them",
  orderRolls: "Rolls ordered",
  expected: "Expected on (if you know)",
  orderSend: "It is ordered",
  note: "Note (if you like)",
};

export const seasonEnd = {
  open: "The last order of a season",
  lead: "When what is left over loses its worth, the last order weighs a missing roll against one too many.",
  ends: "The season ends on",
  short: "A missing roll costs",
  left: "A roll left over costs",
  costHint: "In your money, each.",
  send: "Work it out",
  answer: (rolls: string, share: string) =>
    `Order ${rolls} for the rest of it: enough in ${share} of 100 such ends.`,
  none: (share: string) =>
    `What you have is enough for the rest of it, in ${share} of 100 such ends or more.`,
  use: (mean: string, high: string) => `About ${mean} rolls will be used until then, ${high} at most.`,
};

export const stockMoves = {
  title: "What moved",
  none: "Nothing has moved yet.",
  amount: (rolls: number, sheets: number | null) =>
    sheets === null ? rollCount(rolls) : `A part roll with ${sheets} sheets`,
  moved: (amount: string, from: string, to: string) => `${amount}: ${from} → ${to}`,
  counted: (place: string, rolls: string) => `${place}: counted ${rolls}`,
  ordered: (rolls: string) => `${rolls} ordered`,
  arrived: (rolls: string) => `${rolls} came`,
  bought: (rolls: string, place: string) => `${rolls} bought: ${place}`,
  used: (amount: string, place: string) => `${amount} put in: from ${place}`,
  cameOff: (amount: string, place: string) => `${amount} came off: to ${place}`,
  taking: "Took back a line",
  found: (n: number) =>
    n === 0 ? "as written" : n > 0 ? `${n} more than written` : `${-n} fewer than written`,
  said: (who: string | null, day: string, clock: string) =>
    `${who === null ? "" : `${who}, `}${day} ${clock}`,
  atBooth: "as said or seen at the booth",
  takeBack: "Take back",
  takeBackAsk: "Take this line back? The stock is then as if it had not been written.",
  takeBackYes: "Yes, take it back",
  takeBackNo: "Leave it",
  takenBack: "taken back",
  older: "Older lines",
  newest: "Newest lines",
  files: "As a file",
  download: "Download all lines (CSV)",
  upload: "Lines from a file (CSV)",
};
