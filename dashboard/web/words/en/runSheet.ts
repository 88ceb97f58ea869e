/** The English texts of the run sheet and its short form. */
export const runSheet = {
  title: "Run sheet",
  asking: "Asking for the run sheet.",
  none: "Nothing is on the run sheet yet.",
  count: (n: number) =>
    n === 1 ? "One booking is on the run sheet." : `${n} bookings are on the run sheet.`,
  noBooths: "Add a booth in Set-up first: a booking is one booth at one event.",
  lead: "One entry is one booth at one event, with the hours it is open.",
  add: "Add a booking",
  change: "Change",
  plan: "Plan",
  planWaiting: "Fetching the plan.",
  checks: "Opening checks",
  remove: "Take out",
  removeAsk: (client: string) => `Take ${client} off the run sheet? What was counted stays.`,
  removeYes: "Yes, take it out",
  removeNo: "Keep it",
  past: "Past",
  hours: (from: string, to: string, isOvernight: boolean) =>
    `${from} – ${to}${isOvernight ? " next day" : ""}`,
  guests: (n: string) => `${n} guests`,
  pause: (from: string, to: string) => `break ${from} – ${to}`,
  spares: (n: number) => (n === 1 ? "1 spare roll" : `${n} spare rolls`),
};

export const clashWords = {
  title: "It cannot all be kept",
  overlap: (of: "booth" | "attendant", client: string, hours: string) =>
    `${of === "booth" ? "This booth" : "The attendant"} is at ${client} at the same time, ${hours}.`,
  tooClose: (of: "booth" | "attendant", client: string, gap: string, needs: string) =>
    `Between this and ${client}, for the ${of === "booth" ? "booth" : "same attendant"}, are ${gap}; packing, driving and setting up take about ${needs}.`,
  noTravel: "The drive is not in it: write how long it takes, or where both places are.",
  fromTo: (from: string, to: string) => `from ${from} to ${to}`,
};

export const bookingForm = {
  new: "A new booking",
  changed: (client: string) => `Change ${client}`,
  copied: (client: string) => `Copy ${client} to another date`,
  moreWaiting: "Fetching the fields for print and power.",
  boothId: "Booth",
  client: "Client",
  place: "Place",
  eventKind: "Kind of event",
  eventKindHint: "Pick one or write your own.",
  zone: "Time zone of the place",
  date: "Date",
  open: "Opens",
  close: "Closes",
  closeHint: "A close before the opening is on the next day.",
  guests: "Guests",
  sheetsLoaded: "Sheets loaded",
  sheetsHint: "At the opening. Empty: a full roll.",
  spareRolls: "Spare rolls",
  attendant: "Attendant",
  position: "Where the place is, for its sun (if you like)",
  latitudeDeg: "Latitude",
  longitudeDeg: "Longitude",
  here: "Use this phone's position",
  hereFailed: "This phone does not tell its position.",
  paste: "From a map: paste a link or a position",
  pasteHint: "A link, geo:…, 52.2085, 13.4100, or degrees and minutes.",
  pasteFailed: "There is no position in that.",
  pasted: "Read. It stands above.",
  save: "Save",
  withOthers: (booths: string) => `With the other booths of this event: ${booths}`,
};

export const standingForm = {
  title: "How it stands, for sun and heat (if you like)",
  heading: "Heading, degrees",
  headingHint: "Where its front points, 0 to 360 from true north; a compass differs by the declination.",
  high: (sign: string) => `Expected high (${sign})`,
  highHint: "The day's highest temperature, as forecast.",
  shadow: "Heading from a shadow",
  shadowHow:
    "Hold something upright in the sun on that day, at the booth. How far from the front does its shadow fall, clockwise seen from above?",
  shadowDeg: "Shadow, degrees from the front",
  shadowAt: "At this time there",
  workOut: "Work out the heading",
  noPlace: "Write the latitude and longitude above first.",
  noShadow: "Write the shadow's degrees, its time, and the date and zone above.",
  refused: {
    sunDown: "The sun is down there at that time.",
    sunTooHigh: "The sun is too high then for a shadow to show a direction; take one earlier or later.",
  },
  found: (heading: string, slack: string) =>
    `Heading ${heading}. A clock wrong by a minute makes ${slack} of difference.`,
};
