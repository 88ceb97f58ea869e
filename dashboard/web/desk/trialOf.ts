import type { BoothEvening } from "@boothward/shared-types/view";
import type { Trial, Tried, Wish } from "../parts/tried.ts";
import { lastsFrom } from "../state/boothLook.ts";
import { inFives } from "../words/boothSentence.ts";
import { closeClock } from "../words/boothWords.ts";
import { whatIf as words } from "../words/en/desk.ts";
import { card } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** A wish with how the evening is looked at under it: as a picture, and as a sentence. */
export function trialOf(wish: Wish): Trial {
  return {
    wish,
    look: (evening, bookedAtMs, format) => {
      const tried = triedWith(evening, wish, bookedAtMs);
      return tried === null ? null : { tried, heading: triedHeading(tried, format), ink: words.triedInk };
    },
  };
}

/** The evening with a wish; null: nothing is wished, or it was not forecast. */
function triedWith(evening: BoothEvening | null, wish: Wish, bookedAtMs: number | null): Tried | null {
  if (bookedAtMs === null || (wish.extraMin === 0 && !wish.isOnePrint)) return null;
  const found = evening?.whatIfs.find(
    (each) => each.extraMin === wish.extraMin && each.isOnePrint === wish.isOnePrint,
  );
  return found === undefined ? null : { ...found, wish, closeAtMs: bookedAtMs + wish.extraMin * 60_000 };
}

/** What the picture says while something is tried. */
function triedHeading(tried: Tried, format: Format): string {
  const { wish, lastsChance, emptyAtMs, leftAtClose } = tried;
  const start = words.tried(
    wish.isOnePrint,
    wish.extraMin === 0 ? null : closeClock(tried.closeAtMs, format),
  );
  if (lastsChance >= lastsFrom) return start + words.triedLasts(format.count(inFives(leftAtClose.p50)));
  if (lastsChance >= 0.5 || emptyAtMs.p50 === null)
    return start + words.triedMayLast(card.inTen(Math.round(lastsChance * 10)));
  return start + words.triedEnds(format.clock(emptyAtMs.p50));
}
