import type { DayBooth } from "./day.ts";
import { type Dice, noise } from "./dice.ts";
import { heightAt } from "./shape.ts";

/** Air at a booth at a minute relative to now. */
export type Air = { readonly atMin: number; readonly insideC: number; readonly outsideC: number };

/** Spread of a thermometer's readings. Our own figure: small thermometers step by about a tenth. */
const readingSpreadC = 0.12;

/**
 * The air at a booth once a minute: it follows, with the booth's own delay, what the air outside, the
 * printer's own heat and the sun on the roof would bring it to.
 */
export function airOf(booth: DayBooth, fromMin: number, toMin: number, dice: Dice): Air[] {
  const { air } = booth;
  const perMinute = 1 - Math.exp(-1 / air.settleMin);
  const minutes: Air[] = [];
  let insideC = air.startC;
  for (let atMin = fromMin; atMin <= toMin; atMin++) {
    const outsideC = heightAt(air.outsideC, atMin);
    const settledC = outsideC + air.ownHeatC + heightAt(air.sunC, atMin) * sunLetIn(booth, atMin);
    minutes.push({
      atMin,
      insideC: tenths(insideC + noise(dice, readingSpreadC)),
      outsideC: tenths(outsideC + noise(dice, readingSpreadC)),
    });
    insideC += (settledC - insideC) * perMinute;
  }
  return minutes;
}

/** Share of the sun that no shade keeps out at a minute. */
function sunLetIn(booth: DayBooth, atMin: number): number {
  return booth.incidents.reduce(
    (share, made) => (made.kind === "shade" && made.atMin <= atMin ? share * (1 - made.keepsOut) : share),
    1,
  );
}

function tenths(celsius: number): number {
  return Math.round(celsius * 10) / 10;
}
