/** The English texts of the run sheet and its short form. */
export const runSheet = {
  title: "Run sheet",
  asking: "Asking for the run sheet.",
  none: "Nothing is on the run sheet yet.",
  count: (n: number) =>
    n === 1 ? "One booking is on the run sheet." : `${n} bookings are on the run sheet.`,
  noBooths: "Add a booth in Set-up first: a booking is one booth at one event.",
  lead: "One entry is one booth at one event, with the hours it is open.",
  stock: "Stock of rolls",
  add: "Add a booking",
  change: "Change",
  remove: "Take out",
  removeAsk: (client: string) => `Take ${client} off the run sheet? What was counted stays.`,
  removeYes: "Yes, take it out",
  removeNo: "Keep it",
  past: "Past",
  hours: (from: string, to: string, isOvernight: boolean) =>
    `${from} – ${to}${isOvernight ? " next day" : ""}`,
  guests: (n: string) => `${n} guests`,
  spares: (n: number) => (n === 1 ? "1 spare roll" : `${n} spare rolls`),
};

export const bookingForm = {
  new: "A new booking",
  changed: (client: string) => `Change ${client}`,
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
  save: "Save",
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
