import { noStanding, nothingPlanned, type Booking, type Standing } from "@boothward/shared-types";
import type { BoothSettings } from "../../../dashboard/booth/boothSettings.ts";
import type { DayBooth } from "../../../seeds/day.ts";
import { between, pick, seededDice, type Dice } from "../../../seeds/dice.ts";
import { drawBooth } from "./drawBooth.ts";
import { everyday } from "./everyday.ts";
import { minuteMs, type Evening, type Span } from "./evening.ts";
import { troubles, type Drawn } from "./troubles.ts";

/** Evenings that rules were tuned on, and others to judge by: the two never share a seed. */
export type SeedRange = "tune" | "judge";
const firstSeed: Readonly<Record<SeedRange, number>> = { tune: 1_000, judge: 500_000 };

/** Three booths of one owner on one day: two indoors in the evening, a trailer in the afternoon. */
export type EventDay = readonly Evening[];

/** The invented days of a range; the first third of them are quiet, with nothing but everyday. */
export function drawDays(range: SeedRange, count: number): EventDay[] {
  return Array.from({ length: count }, (_, at) => {
    const seed = firstSeed[range] + at * 10;
    const isQuiet = at % 3 === 0;
    return [0, 1, 2].map((booth) => drawEvening(seed + booth, booth === 2 ? "trailer" : "indoors", isQuiet));
  });
}

/** Summer, so that the sun stands high over a trailer's afternoon. */
const dayAtMs = Date.UTC(2026, 5, 20);
const place = { zone: "Europe/London", latitudeDeg: 51.5, longitudeDeg: 0 } as const;

/** One booth's evening with its troubles, always the same for a seed. */
export function drawEvening(seed: number, kind: Evening["kind"], isQuiet: boolean): Evening {
  const dice = seededDice(seed, "evening");
  const plain = drawBooth(dice, kind);
  const chosen = isQuiet ? [] : chooseTroubles(seededDice(seed, "choice"), kind, slotsOf(plain));
  const drawn = chosen.reduce<Drawn>(
    (before, [name, slot]) => troubles[name]!.happens(before, slot, seededDice(seed, name)),
    { booth: plain, overlays: [], silences: [], truths: [], headingDeg: northFacing(dice) },
  );
  const all = everyday(
    drawn,
    chosen.map(([, slot]) => slot),
    seededDice(seed, "everyday"),
  );
  return eveningOf(all, { kind, seed, troubles: chosen.map(([name]) => name) });
}

/** A booth's evening with the settings and the plan that its owner would have made of it. */
export function eveningOf(
  drawn: Drawn,
  { kind, seed, troubles: names }: Pick<Evening, "kind" | "seed" | "troubles">,
): Evening {
  const startAtMs = dayAtMs + (kind === "trailer" ? 12 : 16) * 60 * minuteMs;
  const { booth, overlays, silences, truths } = drawn;
  const standing = kind === "trailer" ? standingOf(drawn) : noStanding;
  return {
    ...{ kind, seed, startAtMs, troubles: names, booth, overlays, silences, truths },
    settings: settingsOf(booth, seed),
    booking: bookingOf(booth, seed, startAtMs, standing),
  };
}

/** The opening is on the right: it looks north, where no sun comes in. */
function northFacing(dice: Dice): number {
  return 270 + between(dice, -30, 30);
}

function standingOf({ headingDeg, booth }: Drawn): Standing {
  const highs = booth.air.outsideC.map(([, c]) => c);
  return { headingDeg, horizon: [], expectedHighC: Math.round(Math.max(...highs)) };
}

/** Each trouble has an hour of its own, so that it is known which alert is whose. */
function slotsOf({ booking: { openMin, closeMin } }: DayBooth): Span[] {
  const [fromMin, toMin] = [openMin + 15, closeMin - 20];
  const count = Math.floor((toMin - fromMin) / 65);
  const wide = (toMin - fromMin) / count;
  return Array.from({ length: count }, (_, at) => ({
    fromMin: fromMin + at * wide,
    toMin: fromMin + (at + 1) * wide,
  }));
}

function chooseTroubles(dice: Dice, kind: Evening["kind"], slots: Span[]): (readonly [string, Span])[] {
  const names = Object.entries(troubles).filter(
    ([, each]) => each.where === "anywhere" || each.where === kind,
  );
  const count = pick(dice, [
    [1, 2],
    [2, 3],
    [3, 2],
  ] as const);
  return Array.from({ length: Math.min(count, slots.length) }, () => {
    const [name] = names.splice(Math.floor(dice() * names.length), 1)[0]!;
    const [slot] = slots.splice(Math.floor(dice() * slots.length), 1);
    return [name, slot!] as const;
  });
}

function settingsOf({ name, isTrailer, kitSheets, limitC, box }: DayBooth, seed: number): BoothSettings {
  return { boothId: `booth-${seed}`, name, isTrailer, kitSheets, limitC, box };
}

function bookingOf({ booking }: DayBooth, seed: number, startAtMs: number, standing: Standing): Booking {
  const {
    openMin,
    closeMin,
    client,
    place: where,
    eventKind,
    guests,
    sheetsLoaded,
    spareRolls,
    attendant,
  } = booking;
  return {
    ...{ bookingId: `booking-${seed}`, boothId: `booth-${seed}`, client, place: where, eventKind, guests },
    ...{ sheetsLoaded, spareRolls, attendant, standing, ...place, ...nothingPlanned },
    ...{ openAtMs: startAtMs + openMin * minuteMs, closeAtMs: startAtMs + closeMin * minuteMs },
  };
}
