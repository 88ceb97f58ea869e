/** The English texts of the plan from above: the sun's day, the beam, where to stand. */
const winds = ["north", "northeast", "east", "southeast", "south", "southwest", "west", "northwest"];
const between = [
  ["north-northeast", "east-northeast", "east-southeast", "south-southeast"],
  ["south-southwest", "west-southwest", "west-northwest", "north-northwest"],
].flat();

/** One of sixteen winds, "west-southwest". */
export const windOf = (bearingDeg: number): string => {
  const step = Math.round((((bearingDeg % 360) + 360) % 360) / 22.5) % 16;
  return (step % 2 === 0 ? winds[step / 2] : between[(step - 1) / 2]) ?? "";
};

/** The same as on a compass card, "WSW". */
export const windLetters = (bearingDeg: number): string =>
  windOf(bearingDeg)
    .replace(/(north|south|east|west)/g, (word) => word.charAt(0).toUpperCase())
    .replace("-", "");

export const walls = { front: "front", right: "right", rear: "rear", left: "left" } as const;

export const sunPlan = {
  reaches: (stretches: string) => `The sun reaches the printer ${stretches}.`,
  stretch: (from: string, to: string, through: string) => `from ${from} to ${to} through ${through}`,
  reachesNot: (day: string) => `No sun reaches the printer on ${day}.`,
  neverUp: (day: string) => `The sun does not rise there on ${day}: none reaches the printer.`,
  neverDown: "The sun does not set there that day.",
  clear: "Under a clear sky, with thin walls; clouds and trees are not known here.",
  theOpening: (name: string) => `the ${name}`,
  openingAt: (wall: string) => `${wall} opening`,
  openingTo: (deg: string) => `opening at ${deg}`,
  numbered: (name: string, n: number) => `${name} ${n}`,
  printer: "printer",
  north: "N",
  cap: "From above, north on top; the point on the wall is the front. The ring is the sun's way, by the hour; the patch is the sun on the floor, below the printer's height.",
  label: (at: string, what: string) => `The booth from above at ${at}: ${what}`,
  slider: "Time of day",
  date: "Day",
  sunAt: (height: string, wind: string) => `sun ${height} high in the ${wind}`,
  sunDown: "the sun is down",
  behind: (wind: string) => `the sun is behind what stands in the ${wind}`,
  lit: (through: string) => `the printer is in the sun, through ${through}`,
  unlit: "the printer is in the shade",
  state: (sun: string, printer: string) => `${sun}; ${printer}`,
  table: "When the sun is on the printer",
  columns: ["Through", "From", "To"],
  never: "not that day",
  hours: "Hour by hour",
  hourColumns: ["Time", "Sun", "Printer"],
  sunCell: (height: string, wind: string) => `${height} ${wind}`,
  down: "down",
  inSun: "sun",
  inShade: "shade",
  print: "Print it",
};

export const standing = {
  title: "Where to stand",
  well: "As it stands, no sun reaches the printer in the open hours.",
  turned: (deg: string, side: string) =>
    `Turned ${deg} to the ${side}, no sun reaches the printer in the open hours.`,
  turnedLess: (deg: string, side: string, less: string, now: string) =>
    `Turned ${deg} to the ${side}, the printer has ${less} in the open hours instead of ${now}.`,
  best: (now: string) => `No heading has less sun on the printer than this one: ${now} in the open hours.`,
  left: "left",
  right: "right",
  now: "As it stands",
  facing: (deg: string, wind: string) => `heading ${deg}, ${wind}`,
  heading: "Best heading",
  headingFigure: (deg: string, wind: string) => `${deg}, ${wind}`,
  turn: (deg: string, side: string, minutes: string) => `turn ${deg} to the ${side}: ${minutes}`,
  some: (minutes: string) => `${minutes} of sun`,
  none: "no sun",
  asNow: "as it stands now",
  place: "Best place for the printer",
  placeAt: (left: string, rear: string) => `${left} from the left wall, ${rear} from the rear wall`,
  placeNow: "where it is",
  placeNote: (minutes: string) => `${minutes}, without turning`,
  shade: (depth: string, opening: string) => `A shade of ${depth} over the ${opening}`,
  saves: (minutes: string) => `saves ${minutes}`,
  savesNot: "saves nothing",
  leaves: (minutes: string) => `with it: ${minutes}`,
  caution:
    "Minutes of sun in the open hours on a clear day. Turn a trailer only when it is empty of people, with whoever is licensed to move it, and as the site's own rules allow; a shade must be held against wind.",
};

export const missing = {
  title: "What is missing for the plan from above",
  booking: "No event is on for this booth: put it on the run sheet.",
  box: "How the booth is built is not known: its walls, its openings and where the printer stands are entered in Set-up, at the booth.",
  heading:
    "Which way it faces is not known: the heading, or a shadow, is entered on the run sheet, at the booking.",
  place:
    "Where the place is is not known: latitude and longitude are entered on the run sheet, at the booking.",
  setUp: "Open Set-up",
  runSheet: "Open the run sheet",
};
