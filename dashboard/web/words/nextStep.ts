import type { BoothView } from "@boothward/shared-types/view";
import { changeStep, runsOut } from "./changeStep.ts";
import { step as words } from "./en/step.ts";
import type { Format } from "../../alerts/format.ts";

/** The next thing to do at a booth, and why. */
export type Step = { doNow: string; why: string | null };

/**
 * The next thing to do at a booth that no alert speaks of: a printer that stands still, a question about the
 * paper, a roll to change or to bring. Null when nothing is to be done. `why` null: what the paper does says it.
 */
export function nextStep(booth: BoothView, format: Format): Step | null {
  const stalledSinceAtMs = booth.printer?.stalledSinceAtMs ?? null;
  if (stalledSinceAtMs !== null)
    return { doNow: words.stalled, why: words.stalledSince(format.clock(stalledSinceAtMs)) };
  const question = booth.media?.question ?? null;
  if (question !== null) return { doNow: questionText(question, format), why: null };
  const media = booth.outlook.media;
  const doNow = media === null ? null : changeStep(media, format);
  if (media === null || doNow === null) return null;
  if (runsOut(media)) return { doNow, why: words.atHand };
  const emptyAtMs = media.emptyAtMs.p50;
  return { doNow, why: emptyAtMs === null ? null : words.left(format.clock(emptyAtMs)) };
}

type Question = NonNullable<NonNullable<BoothView["media"]>["question"]>;

/** The one question about the paper, as it is asked at the booth. */
export function questionText({ ask, atMs }: Question, format: Format): string {
  return ask === "fitted" ? words.fitted(format.clock(atMs)) : words.howMany;
}
