import { noStanding, nothingPlanned, type Booking, type PrintSize } from "@boothward/shared-types";
import { between, noise, pick, seededDice, type Dice } from "../../../seeds/dice.ts";
import { boothLine } from "../forecast/boothLine.ts";
import { drawFactor, drawGamma } from "../forecast/draws.ts";
import { drawShape, namedKinds } from "../forecast/eveningShape.ts";
import { guestArrivals } from "../forecast/guestArrivals.ts";

/** One night of a season: what was planned, and what guests then took. */
export type SeasonNight = {
  readonly booking: Booking;
  readonly sessions: readonly { readonly atMs: number; readonly sheets: number }[];
};

const hourMs = 3_600_000;
const dayMs = 24 * hourMs;

/** What a business is booked for: how often, by how many guests, for how long. Common practice, no source. */
const kinds = {
  wedding: { often: 0.4, guests: 120, guestSpread: 0.35, hours: [4, 6] },
  party: { often: 0.25, guests: 65, guestSpread: 0.4, hours: [3, 4] },
  corporate: { often: 0.2, guests: 160, guestSpread: 0.5, hours: [3, 6] },
  gala: { often: 0.08, guests: 250, guestSpread: 0.3, hours: [4, 5] },
  public: { often: 0.07, guests: 600, guestSpread: 0.4, hours: [6, 10] },
} as const;
type Kind = keyof typeof kinds;

/** What is agreed for a session, and how often. Common practice, no source. */
const agreed: readonly (readonly [readonly [PrintSize, number], number])[] = [
  [["2x6", 2], 0.4],
  [["4x6", 1], 0.2],
  [["4x6", 2], 0.25],
  [["2x6", 4], 0.1],
  [["6x8", 1], 0.05],
];

/** Sessions a guest over an evening, of which each business has its own measure for each kind. */
const usualSessionsPerGuest = 0.75;
const businessSpread = 0.2;
/** How far one night is from what its kind usually does, and how many of those who were expected really come. */
const nightSpread = 0.35;
const guestsSpread = 0.1;

/** Reprints for a session: none, a sheet more, two more. Our own guess. */
const more: readonly (readonly [number, number])[] = [
  [0, 0.82],
  [1, 0.14],
  [2, 0.04],
];

/**
 * A season of a business in the order of its nights: so many booths, each with a night a week or two. The same
 * seed gives the same season.
 */
export function drawSeason(seed: number, booths: number, nightsEach: number): SeasonNight[] {
  const dice = seededDice(seed, "season");
  const level = (): number => usualSessionsPerGuest * drawFactor(dice, businessSpread);
  const measures: Readonly<Record<Kind, number>> = {
    ...{ wedding: level(), party: level(), corporate: level(), gala: level(), public: level() },
  };
  const nights: SeasonNight[] = [];
  for (let night = 0; night < nightsEach; night += 1)
    for (let booth = 0; booth < booths; booth += 1)
      nights.push(drawNight(`${seed}-${night}-${booth}`, { night, booth, measures }, dice));
  return nights;
}

function drawNight(
  bookingId: string,
  its: { readonly night: number; readonly booth: number; readonly measures: Readonly<Record<Kind, number>> },
  dice: Dice,
): SeasonNight {
  const kind = pick(
    dice,
    (Object.keys(kinds) as Kind[]).map((each) => [each, kinds[each].often] as const),
  );
  const { guests: usual, guestSpread, hours } = kinds[kind];
  const guests = 10 * Math.max(2, Math.round((usual * Math.exp(noise(dice, guestSpread))) / 10));
  const lengthMs = (hourMs * Math.round(2 * between(dice, hours[0], hours[1]))) / 2;
  const openAtMs = Date.UTC(2026, 3, 4, 16) + its.night * 4 * dayMs;
  const [size, printsPerSession] = pick(dice, agreed);
  const booking: Booking = {
    ...{
      bookingId,
      boothId: `booth-${its.booth}`,
      client: bookingId,
      place: "",
      eventKind: kind,
      zone: "UTC",
    },
    ...{ latitudeDeg: null, longitudeDeg: null, openAtMs, closeAtMs: openAtMs + lengthMs, guests },
    ...{ sheetsLoaded: null, spareRolls: 0, attendant: null, standing: noStanding, ...nothingPlanned },
    ...{ printSizes: [size], printsPerSession },
  };
  const come = guests * drawGamma(dice, guestsSpread);
  const groups = come * its.measures[kind] * drawGamma(dice, nightSpread);
  return { booking, sessions: drawSessions(booking, groups, dice) };
}

function drawSessions({ eventKind, openAtMs, closeAtMs, ...plan }: Booking, groups: number, dice: Dice) {
  const lengthMs = closeAtMs - openAtMs;
  const shape = drawShape(namedKinds[eventKind] ?? { floor: 1, surges: [] }, dice);
  const arrivals = guestArrivals(shape, groups, lengthMs, [], dice);
  const habits = {
    sessionMs: between(dice, 60_000, 90_000),
    longestLine: 5 + Math.floor(10 * dice()),
    stops: [],
  };
  const sheets = pitchesOf(plan);
  return boothLine(arrivals, habits, dice)
    .filter((endMs) => endMs <= lengthMs)
    .map((endMs) => ({ atMs: openAtMs + Math.round(endMs), sheets: sheets + pick(dice, more) }));
}

/** A 4x6 is one sheet, two strips come from one, a 6x8 takes two (common practice, no source). */
function pitchesOf({
  printSizes,
  printsPerSession,
}: Pick<Booking, "printSizes" | "printsPerSession">): number {
  const prints = printsPerSession ?? 1;
  if (printSizes[0] === "2x6") return Math.ceil(prints / 2);
  return printSizes[0] === "6x8" ? 2 * prints : prints;
}
