import type { BoothEvening, FanPoint, WhatIf } from "@boothward/shared-types/view";
import type { Format } from "../../alerts/format.ts";
import { fanAt } from "./stripShape.ts";
import type { Empty, StripInput } from "./stripShape.ts";

/** What a person tries on the page: a later close, one print a session. Nothing of it is sent. */
export type Wish = { extraMin: number; isOnePrint: boolean };

export const noWish: Wish = { extraMin: 0, isOnePrint: false };

/** The evening as it would go with what is tried. */
export type Tried = Pick<WhatIf, "fan" | "lastsChance" | "leftAtClose" | "rolls"> & {
  wish: Wish;
  emptyAtMs: Empty;
  closeAtMs: number;
};

/** What is tried, with how it is looked at: that comes with the part that lets a person try. */
export type Trial = {
  wish: Wish;
  /** null: nothing is wished, or it was not forecast. */
  look: (
    evening: BoothEvening | null,
    bookedAtMs: number | null,
    format: Format,
  ) => { tried: Tried; heading: string; ink: string } | null;
};

/** How a full roll would go on from the advised change, by the likeliest demand. */
export function afterChange({ fan, changeAtMs, kitSheets }: StripInput): FanPoint[] {
  const first = fan[0];
  if (changeAtMs === null || first === undefined) return [];
  const start = fanAt(fan, Math.max(changeAtMs, first.atMs));
  if (start === null) return [];
  return [start, ...fan.filter((point) => point.atMs > start.atMs)].map((point) => {
    const sheets = kitSheets - (start.p50 - point.p50);
    return { atMs: point.atMs, p10: sheets, p50: sheets, p90: sheets };
  });
}
