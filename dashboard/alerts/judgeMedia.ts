import type { Outlook, Severity } from "@boothward/shared-types";
import { mediaNow } from "../booth/mediaNow.ts";
import { saysEmpty } from "../booth/printerReasons.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, sparesLeft, type Scene } from "./scene.ts";

/** Raised when the chance to last is under the first, taken back when it is over the second. */
const lastsChance = { raise: 0.35, clear: 0.5 };

/** Time to fetch a roll and fit it: from here on it is now. */
const actNowMs = 20 * 60_000;

type MediaOutlook = NonNullable<Outlook["media"]>;

/** Whether the loaded roll is too short for the time left. */
export function judgeMedia(scene: Scene): Judged {
  const { state, outlook, booking, settings, atMs } = scene;
  const matter = "mediaLow";
  const media = booking === null ? null : mediaNow(state, settings, booking);
  if (booking === null || atMs >= booking.closeAtMs) return { matter, stands: "clear" };
  if (media === null) return { matter, stands: "unseen" };
  const stands = standsOf(scene, media.sheetsLeft);
  if (stands === "clear" || stands === "unseen") return { matter, stands };
  const emptyAtMs = outlook.media?.emptyAtMs ?? null;
  const isEmpty = media.sheetsLeft === 0;
  return {
    ...noFigures,
    matter,
    stands,
    severity: isEmpty || isSoon(outlook.media, atMs) ? whenOpen(scene) : "plan",
    since: isEmpty ? { atMs: media.atMs, isAtLatest: false } : null,
    // Already empty: what remains is now.
    byAtMs: isEmpty ? null : (emptyAtMs?.p10 ?? null),
    sheetsLeft: media.sheetsLeft,
    emptyAtMs: isEmpty ? null : (emptyAtMs?.p50 ?? null),
    spareRolls: sparesLeft(scene),
  };
}

function standsOf({ state, outlook }: Scene, sheetsLeft: number): Judged["stands"] {
  // A printer that stops for want of paper has an alert of its own: one matter is said once.
  if (state.printing.printers.some((printer) => saysEmpty(printer.reasons))) return "lingers";
  if (sheetsLeft === 0) return "holds";
  if (outlook.media === null) return "unseen";
  if (outlook.media.lastsChance < lastsChance.raise) return "holds";
  return outlook.media.lastsChance <= lastsChance.clear ? "lingers" : "clear";
}

function isSoon(media: MediaOutlook | null, atMs: number): boolean {
  const emptyAtMs = media?.emptyAtMs.p50 ?? null;
  return emptyAtMs !== null && emptyAtMs - atMs <= actNowMs;
}

function whenOpen(scene: Scene): Severity {
  return phaseOf(scene) === "open" ? "actNow" : "plan";
}
