import type { Booking } from "@boothward/shared-types";
import { between, seededDice, type Dice } from "../../../seeds/dice.ts";
import type { PastEvening } from "../../../dashboard/forecast/demand/demandInput.ts";
import { rollsToBring } from "../../../dashboard/planning/rollsToBring.ts";
import type { SeasonNight } from "./drawSeason.ts";

/** Whole rolls to take along beside the one on the printer. */
export type LoadRule = (booking: Booking, kitSheets: number, past: readonly PastEvening[]) => number;

export const asAdvised: LoadRule = (booking, kitSheets, past) => rollsToBring(booking, kitSheets, past).bring;

export function always(rolls: number): LoadRule {
  return () => rolls;
}

/** What became of a season under a rule. */
export type SeasonPlayed = {
  readonly nights: number;
  /** Nights on which guests wanted more than was there. */
  readonly runOut: number;
  /** Guests' sheets that could not be printed on them. */
  readonly missingSheets: number;
  /** Rolls taken along, and those put in, all nights together. */
  readonly carried: number;
  readonly putIn: number;
};

/** A roll with fewer sheets is not taken out again. Our own guess. */
const worthKeeping = 15;
/** A fitting wastes 1 to 4 sheets: common practice, no source. */
const wastedAtFitting = [1, 4] as const;
/** As many evenings of a kind as the dashboard looks back on. */
const mostPast = 30;

/**
 * Plays a season under a rule. Each booth begins with a full roll on its printer and keeps what is left of it for
 * the next night; the rule knows what is on it, and the earlier nights of the kind at all booths.
 */
export function playSeason(nights: readonly SeasonNight[], kitSheets: number, rule: LoadRule): SeasonPlayed {
  const loaded = new Map<string, number>();
  const past = new Map<string, PastEvening[]>();
  let played: SeasonPlayed = { nights: 0, runOut: 0, missingSheets: 0, carried: 0, putIn: 0 };
  for (const { booking, sessions } of nights) {
    const { boothId, bookingId, eventKind } = booking;
    const sheetsLoaded = loaded.get(boothId) ?? kitSheets;
    const before = past.get(eventKind) ?? [];
    const rolls = rule({ ...booking, sheetsLoaded }, kitSheets, before.slice(-mostPast));
    const wanted = sessions.reduce((sum, { sheets }) => sum + sheets, 0);
    const night = useRolls(wanted, sheetsLoaded, rolls, kitSheets, seededDice(0, bookingId));
    loaded.set(boothId, night.left < worthKeeping ? kitSheets : night.left);
    past.set(eventKind, [...before, asPast({ booking, sessions })]);
    played = {
      nights: played.nights + 1,
      runOut: played.runOut + (night.missing > 0 ? 1 : 0),
      missingSheets: played.missingSheets + night.missing,
      carried: played.carried + rolls,
      putIn: played.putIn + night.putIn,
    };
  }
  return played;
}

/** What is left on the printer after a night, and what was wanting. */
function useRolls(wanted: number, loaded: number, rolls: number, kitSheets: number, dice: Dice) {
  let [missing, left, putIn] = [wanted, loaded, 0];
  for (;;) {
    const printed = Math.min(missing, left);
    [missing, left] = [missing - printed, left - printed];
    if (missing === 0 || putIn === rolls) return { missing, left, putIn };
    putIn += 1;
    left = kitSheets - Math.round(between(dice, ...wastedAtFitting));
  }
}

function asPast({ booking, sessions }: SeasonNight): PastEvening {
  const { eventKind, openAtMs, closeAtMs, guests } = booking;
  const quarterMs = 900_000;
  const sheetsPer15Min = new Array<number>(Math.ceil((closeAtMs - openAtMs) / quarterMs)).fill(0);
  for (const { atMs, sheets } of sessions) {
    const at = Math.min(sheetsPer15Min.length - 1, Math.floor((atMs - openAtMs) / quarterMs));
    sheetsPer15Min[at] = (sheetsPer15Min[at] ?? 0) + sheets;
  }
  return {
    ...{ eventKind, openAtMs, closeAtMs, guests, sessions: sessions.length, sheetsPer15Min },
    sheets: sheetsPer15Min.reduce((sum, sheets) => sum + sheets, 0),
  };
}
