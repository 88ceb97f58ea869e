import type { DayBooth } from "../../../seeds/day.ts";
import type { Printing } from "../../../seeds/printing.ts";
import { sheetsLeft } from "../../../seeds/printing.ts";
import { itemsOf, type ScenarioItem } from "../../../seeds/scenarioLine.ts";
import { simulate, simulatePrinting } from "../../../seeds/simulate.ts";
import { dayOf, minuteMs, type Evening } from "./evening.ts";

/** What happens at a booth from start to pack-down, as far as it is settled now. */
export type Happening = {
  readonly booth: DayBooth;
  /** As the sources see it. */
  readonly items: readonly ScenarioItem[];
  readonly printing: Printing;
  /** At the printer, minute by minute, before any thermometer errs much. */
  readonly insideC: readonly { readonly atMin: number; readonly insideC: number }[];
};

/**
 * Plays the simulation out. A roll that is changed or a shade that is put up later on changes nothing of what went
 * before: the dice fall the same way.
 */
export function happeningOf(booth: DayBooth, { overlays, seed }: Evening): Happening {
  const plain = itemsOf(simulate(booth, dayOf(booth), seed));
  return {
    booth,
    items: overlays.reduce<readonly ScenarioItem[]>((items, overlay) => overlay(items), plain),
    printing: simulatePrinting(booth, seed).printing,
    insideC: plain.flatMap(({ atMs, item }) =>
      item.kind === "inside" ? [{ atMin: atMs / minuteMs, insideC: item.insideC }] : [],
    ),
  };
}

/** When the loaded roll will be used up if nobody changes it; null: it lasts. */
export function runsOutAtMin({ booth, printing }: Happening, atMin: number): number | null {
  return usedUpAtMin(printing, sheetsLeft(booth.booking.sheetsLoaded, printing, atMin), atMin);
}

/** The same of the roll and all the spares that are left. */
export function allRunsOutAtMin({ booth, printing }: Happening, atMin: number): number | null {
  const fitted = printing.fitted.filter((each) => each.atMin <= atMin).length;
  const spares = Math.max(0, booth.booking.spareRolls - fitted);
  const left = sheetsLeft(booth.booking.sheetsLoaded, printing, atMin) + spares * booth.kitSheets;
  return usedUpAtMin(printing, left, atMin);
}

/** When so many sheets, there at a minute, will be used up; null: they last. */
export function usedUpAtMin({ jobs }: Printing, sheets: number, atMin: number): number | null {
  let left = sheets;
  for (const job of jobs.filter(({ doneMin }) => doneMin > atMin)) {
    left -= job.pitches;
    if (left < 0) return job.sentMin;
  }
  return null;
}

/** When the limit will be reached if nobody does anything; null: not before the end. */
export function tooHotAtMin({ booth, insideC }: Happening, atMin: number): number | null {
  return insideC.find((each) => each.atMin >= atMin && each.insideC >= booth.limitC)?.atMin ?? null;
}
