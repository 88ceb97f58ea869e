import type { MediaQuestion } from "@boothward/shared-types";
import { binOf } from "./bins.ts";
import { baseOf, loadedBase, mediaAt, mediaNow, meterAboveCount } from "./mediaNow.ts";
import type { BookedFrom, MediaFacts, MediaSettings } from "./mediaNow.ts";

/**
 * The one thing to ask the person at the booth when the figure is doubtful, null when it is not. `fitted`: a roll
 * may have been put in at that instant, and nobody denied it. Otherwise `left`, since when the doubt is there.
 * The same doubt asks the same question at whatever moment it is asked for.
 */
export function mediaQuestion(
  state: MediaFacts,
  settings: MediaSettings,
  booking: BookedFrom | null,
): MediaQuestion | null {
  const media = mediaNow(state, settings, booking);
  if (media?.figure !== "doubtful") return null;
  const loaded = loadedBase(state, booking);
  const { marks, suspicions } = state.media;
  const base = baseOf(marks, loaded);
  if (base?.basis === "assumed")
    return { ask: "fitted", atMs: Math.round(base.atMs), sheets: settings.kitSheets };
  const above = meterAboveCount(marks, loaded, settings);
  const last = suspicions.findLast((each) => !each.isDenied && each.atMs >= (base?.atMs ?? -Infinity));
  if (last !== undefined && (above ?? 0) > 0) {
    const sheets = last.sheets ?? ((last.leftPct ?? 100) / 100) * settings.kitSheets;
    return { ask: "fitted", atMs: Math.round(last.atMs), sheets: Math.max(1, Math.round(sheets)) };
  }
  const sheets = above === null ? null : meterSays(state, settings);
  return { ask: "left", atMs: Math.round(doubtfulSince(state, settings, booking)), sheets };
}

/** What the meter says now, alone. */
function meterSays({ media }: MediaFacts, settings: MediaSettings): number | null {
  return mediaAt({ ...media.marks, base: null }, null, settings)?.sheetsLeft ?? null;
}

/** When the doubt began, to the five minutes that the trail keeps. */
function doubtfulSince(state: MediaFacts, settings: MediaSettings, booking: BookedFrom | null): number {
  const { trail, marks } = state.media;
  const loaded = loadedBase(state, booking);
  const calm = trail.findLastIndex((point) => mediaAt(point.marks, loaded, settings)?.figure !== "doubtful");
  const first = trail[calm + 1];
  const baseAtMs = baseOf(marks, loaded)?.atMs ?? -Infinity;
  return Math.max(baseAtMs, first === undefined ? -Infinity : binOf(first.atMs));
}
