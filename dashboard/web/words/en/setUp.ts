/** The English texts of Set-up, of pairing, of sign-in and of the first run. */
export const pairing = {
  first: "Pair the first booth",
  name: "Give the booth a name and add it.",
  run: "On the booth computer, where the agent is, run this line:",
  copy: "Copy the line",
  type: "The code in it, should you type it by hand:",
  good: (until: string) => `Good until ${until}, once, for this booth.`,
  used: "This code is too old now.",
  appears: "The booth shows here by itself, with what it can read: printer, paper, temperature, sessions.",
  picture: "Each booth becomes a roll that gets thinner and a strip of paper that runs to the close.",
  show: (name: string) => `Show a code for ${name}`,
};

export const copying = { done: "Copied", failed: "Could not copy; mark the text by hand" };

export const form = {
  sending: "Sending…",
  cancel: "Cancel",
};

export const boothForm = {
  name: "Name of the booth",
  isTrailer: "It is a trailer, standing outside",
  kitSheets: "Sheets in a full roll",
  kitHint: "4x6 prints a new roll gives; the box says it.",
  limit: (sign: string) => `Too hot above (${sign})`,
  limitHint: "As the printer's manual says; it is no limit for people.",
  isMeasured: "Its walls are measured, to know when the sun reaches the printer",
  walls: {
    title: "Sun and walls",
    lead: (unit: string) =>
      `Inside measures in ${unit}, by hand to a few fingers' breadths. Front is where it points when it is towed.`,
    inUnit: (label: string, unit: string) => `${label} (${unit})`,
    inMetres: " The dashboard counts in metres.",
    lengthM: "Length",
    widthM: "Width",
    heightM: "Height",
    opening: (n: number) => `Opening ${n}: door, hatch or window`,
    wall: "In which wall",
    walls: { left: "left", right: "right", front: "front", rear: "rear", bearing: "at a bearing" },
    bearing: "Looks to, degrees clockwise from the front",
    fromRear: "Its middle, from the rear wall",
    fromLeft: "Its middle, from the left wall",
    openingSize: { widthM: "Opening's width", heightM: "Opening's height" },
    sill: "Sill above the floor",
    awning: "Awning stands out by",
    add: "Another opening",
    takeOut: (n: number) => `Take out opening ${n}`,
    printer: "Where the printer stands, its middle",
    printerPlace: { xM: "From the left wall", yM: "From the rear wall", heightM: "Above the floor" },
  },
  add: "Add the booth",
  save: "Save",
};

export const setUp = {
  title: "Set-up",
  asking: "Asking the dashboard.",
  booths: "Booths",
  none: "No booth yet.",
  kit: (sheets: string, limit: string) => `${sheets} sheets a roll, limit ${limit}`,
  trailer: "trailer",
  computer: (host: string, at: string) => `Paired with ${host} since ${at}`,
  linked: "linked now",
  unlinked: "not linked now",
  noComputer: "No computer is paired.",
  pair: "Show a pairing code",
  pairOther: "Pair another computer",
  change: "Change",
  unpair: "Unpair",
  unpairAsk: (host: string, name: string) =>
    `Unpair ${host} from ${name}? It keeps what it counts, and sends nothing until it is paired again.`,
  unpairYes: "Yes, unpair it",
  unpairNo: "Keep it",
  addBooth: "Add a booth",
  stock: "Stock of rolls",
  stockHint: "Where the rolls are, what the next events will use, and by when to order.",
  device: "This device",
  theme: "Light or dark",
  themes: { byItself: "By itself", light: "Light", dark: "Dark" },
  themeHint: "By itself: dark after sunset at the venue, before that as the device says.",
  units: "Temperatures",
  unitNames: { metric: "°C", us: "°F" },
  phone: "Sign in on another phone",
  phoneHint: "The link signs in whoever opens it, once. Give it only to somebody who may see and change all.",
  makeLink: "Make a sign-in link",
  copyLink: "Copy the link",
  linkGood: (until: string) => `Good once, until ${until}.`,
  signedInAs: (name: string) => `Signed in as ${name}`,
  signOut: "Sign out",
};

export const signIn = {
  title: "Sign in",
  lead: "This dashboard shows its booths to its owner only. Attendants open the link that the owner gave them.",
  name: "Name",
  password: "Password",
  show: "Show the password",
  go: "Sign in",
  once: "Signing you in with the link.",
  onceFailed: "The link did not sign you in.",
  firstRun: "This dashboard has no owner yet. Open the link that it printed on its console when it started.",
};

export const firstRun = {
  title: "Make this dashboard yours",
  lead: "You are its first and only owner: pick a name and a password.",
  noCode: "Open the whole link that the dashboard printed on its console; this address lacks its code.",
  passwordHint: "Ten letters or more; a few words are fine. Nobody can send it to you again.",
  go: "Make it mine",
};
