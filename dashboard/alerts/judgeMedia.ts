import type { Matter, Outlook, Severity } from "@boothward/shared-types";
import { saysEmpty } from "../booth/printerReasons.ts";
import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, sparesLeft, type Scene } from "./scene.ts";
import { neededChance } from "./trust.ts";

/** Raised when the chance to last is under the first, taken back when it is over the second. */
export const lastsChance = { raise: 0.35, clear: 0.5 };

/** Time to fetch a roll and fit it: from here on it is now. */
const actNowMs = 20 * 60_000;

type MediaOutlook = NonNullable<Outlook["media"]>;

/** Whether the loaded roll is too short for the time left. */
export function judgeMedia(scene: Scene): Judged {
  const { outlook, shown, booking, atMs } = scene;
  const matter = "mediaLow";
  if (booking === null || atMs >= booking.closeAtMs) return { matter, stands: "clear" };
  if (shown.media === null) return { matter, stands: "unseen" };
  const { sheetsLeft } = shown.media;
  const stands = standsOf(scene, sheetsLeft);
  if (stands === "clear" || stands === "unseen") return { matter, stands };
  const isEmpty = sheetsLeft === 0;
  return {
    ...noFigures,
    matter,
    stands,
    severity: isEmpty || isSoon(outlook.media, atMs) ? whenOpen(scene) : "plan",
    since: isEmpty ? { atMs: shown.media.atMs, isAtLatest: false } : null,
    // Already empty: what remains is now.
    byAtMs: isEmpty ? null : latestMoment(outlook.media),
    sheetsLeft,
    emptyAtMs: isEmpty ? null : (outlook.media?.emptyAtMs.p50 ?? null),
    spareRolls: sparesLeft(scene),
  };
}

/** Stands of a chance to last, with the thresholds that its matter's record has earned; `null`: nobody can tell. */
export function standsOfChance(
  chance: number | null,
  matter: Matter,
  trust: Scene["trust"],
): "holds" | "lingers" | "clear" | "unseen" {
  if (chance === null) return "unseen";
  const endsChance = 1 - chance;
  if (endsChance > neededChance(1 - lastsChance.raise, matter, trust)) return "holds";
  return endsChance >= neededChance(1 - lastsChance.clear, matter, trust) ? "lingers" : "clear";
}

function standsOf({ state, outlook, trust }: Scene, sheetsLeft: number): Judged["stands"] {
  // A printer that stops for want of paper has an alert of its own: one matter is said once.
  if (state.printing.printers.some((printer) => saysEmpty(printer.reasons))) return "lingers";
  if (sheetsLeft === 0) return "holds";
  return standsOfChance(outlook.media?.lastsChance ?? null, "mediaLow", trust);
}

/** Before the roll may be empty, or before the lull is over in which a change costs least. */
function latestMoment(media: MediaOutlook | null): number | null {
  if (media === null) return null;
  const advised = media.change === null ? null : (media.change.lull?.toAtMs ?? media.change.advised.atMs);
  const moments = [media.emptyAtMs.p10, advised].filter((each) => each !== null);
  return moments.length === 0 ? null : Math.min(...moments);
}

function isSoon(media: MediaOutlook | null, atMs: number): boolean {
  const emptyAtMs = media?.emptyAtMs.p50 ?? null;
  return emptyAtMs !== null && emptyAtMs - atMs <= actNowMs;
}

function whenOpen(scene: Scene): Severity {
  return phaseOf(scene) === "open" ? "actNow" : "plan";
}
