import type { DayBooth } from "./day.ts";
import { between, type Dice, pick } from "./dice.ts";
import { heightAt, peakOf } from "./shape.ts";

/** One party at the booth; instants are minutes relative to now. */
export type Visit = {
  readonly fromMin: number;
  readonly toMin: number;
  readonly copies: number;
  /** 4x6 lengths its prints use. */
  readonly pitches: number;
};

/** A party that would wait longer than this goes back to the dance floor. Our own figure. */
const patienceMin = 12;

/**
 * The parties that use a booth while it is open: they arrive at random around the day's curve, wait
 * their turn, and sit one after the other with `turnS` between.
 */
export function visitsOf(booth: DayBooth, dice: Dice): Visit[] {
  const { openMin, closeMin } = booth.booking;
  const visits: Visit[] = [];
  let freeMin = openMin;
  for (const arrivedMin of arrivals(booth, dice)) {
    const fromMin = Math.max(arrivedMin, freeMin);
    const toMin = fromMin + between(dice, ...booth.guests.poseS) / 60;
    const copies = pick(dice, booth.prints.copies);
    if (fromMin - arrivedMin > patienceMin || toMin > closeMin) continue;
    visits.push({ fromMin, toMin, copies, pitches: Math.ceil(copies * booth.prints.pitchesACopy) });
    freeMin = toMin + booth.guests.turnS / 60;
  }
  return visits;
}

/**
 * Instants of an inhomogeneous Poisson process over the open hours, by thinning.
 *
 * **Source:** Lewis and Shedler 1979 (from memory): draw at the peak rate, keep each with the share
 * of the peak that holds then.
 */
function arrivals(booth: DayBooth, dice: Dice): number[] {
  const { perHour } = booth.guests;
  const peak = peakOf(perHour);
  const kept: number[] = [];
  let atMin = booth.booking.openMin;
  while (peak > 0) {
    atMin += (-Math.log(1 - dice()) * 60) / peak;
    if (atMin >= booth.booking.closeMin) break;
    if (dice() * peak < heightAt(perHour, atMin)) kept.push(atMin);
  }
  return kept;
}
