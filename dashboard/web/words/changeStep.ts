import type { Outlook } from "@boothward/shared-types/view";
import { step as words } from "./en/step.ts";
import type { Format } from "../../alerts/format.ts";

type MediaOutlook = NonNullable<Outlook["media"]>;
export type Change = NonNullable<MediaOutlook["change"]>;

/** Nearer than this is said as "now". */
export const nowWithinMs = 2 * 60_000;
/** Moments nearer to each other than this are the same one to a person. */
const sameWithinMs = 3 * 60_000;

/** The roll to change or to bring, and by when; null while the roll lasts. */
export function changeStep(media: MediaOutlook, format: Format): string | null {
  const { change, rolls, emptyAtMs } = media;
  if (change === null) return null;
  if (rolls.spares === 0) {
    const byAtMs = Math.min(emptyAtMs.p10 ?? change.atEmpty.atMs, change.atEmpty.atMs);
    return words.bring(whenOf(byAtMs, media.fan[0]?.atMs ?? byAtMs, words.by, format));
  }
  if (runsOut(media)) return words.letRunOut(format.clock(change.atEmpty.atMs));
  const { atMs } = change.advised;
  const when = whenOf(atMs, media.fan[0]?.atMs ?? -Infinity, words.at, format);
  return words.change(when, isInLull(change) ? words.inLull : "");
}

/** Whether the roll is best left on until it is empty, where another is not known to be missing. */
export function runsOut({ change, rolls }: MediaOutlook): boolean {
  return change !== null && rolls.spares !== 0 && isLate(change);
}

/** Nothing is won by changing before the roll is empty. */
export function isLate({ advised, atEmpty }: Change): boolean {
  return atEmpty.atMs - advised.atMs < sameWithinMs;
}

/** Whether the advised moment lies in a quiet stretch. */
export function isInLull({ advised, lull }: Change): boolean {
  return lull !== null && advised.atMs >= lull.fromAtMs && advised.atMs <= lull.toAtMs;
}

function whenOf(atMs: number, nowMs: number, say: (at: string) => string, format: Format): string {
  return atMs - nowMs < nowWithinMs ? words.now : say(format.clock(atMs));
}
