import type { AlertView, BoothView } from "@boothward/shared-types/view";
import { paperOutlook, pressingAlert, quietStop } from "../state/boothLook.ts";
import { alertText } from "./alertText.ts";
import { step } from "./en/step.ts";
import { card as words } from "./en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { nextStep } from "./nextStep.ts";

type MediaOutlook = NonNullable<BoothView["outlook"]["media"]>;

/** What a card says of its booth: why first, and the one thing to do, set in bold. */
export type BoothSentence = { why: string; doNow: string };

const only = (why: string): BoothSentence => ({ why, doNow: "" });

/** Sheets to spare, in fives: the band is wider than that. */
export const inFives = (sheets: number): number => Math.max(0, Math.round(sheets / 5) * 5);

/**
 * The sentence of a booth's card. `isCutOff`: the dashboard is out of reach, so that all is said as of the
 * booth's last frame.
 */
export function boothSentence(
  booth: BoothView,
  nowMs: number,
  format: Format,
  isCutOff: boolean,
): BoothSentence {
  if (booth.heardAtMs === null) return only(words.neverHeard);
  if (isCutOff) return only(words.staleData(format.clock(booth.heardAtMs)));
  const alert = pressingAlert(booth);
  if (alert !== null && alert.matter !== "agentSilent") {
    const { detail, doNow } = alertText(alert, booth, nowMs, format);
    return { why: detail, doNow };
  }
  if (booth.health === "silent") {
    const doNow = alert === null ? "" : alertText(alert, booth, nowMs, format).doNow;
    return { why: silentSentence(booth, booth.heardAtMs, format), doNow };
  }
  return presentSentence(booth, nowMs, format);
}

/** Whether the paper lasts, with the next thing to do, for a booth that is heard and that no alert speaks of. */
export function presentSentence(booth: BoothView, nowMs: number, format: Format): BoothSentence {
  const stop = quietStop(booth);
  if (stop !== null) return quietSentence(booth, stop, nowMs, format);
  const paper = paperSentence(booth, nowMs, format);
  const isOver = booth.booking !== null && nowMs >= booth.booking.closeAtMs;
  const step = isOver ? null : nextStep(booth, format);
  return step === null ? only(paper) : { why: step.why ?? paper, doNow: step.doNow };
}

/** What stands still while a booth is set up or packed down is said, and so is that nobody is called for it. */
function quietSentence(booth: BoothView, stop: AlertView, nowMs: number, format: Format): BoothSentence {
  const { doNow, detail } = alertText(stop, booth, nowMs, format);
  const { booking } = booth;
  if (stop.suppressedBy === "packingDown") return only(`${words.packingDown} ${detail}`);
  const before = booking === null ? words.settingUp : words.settingUpTo(format.clock(booking.openAtMs));
  return { why: `${detail} ${before}`, doNow };
}

function silentSentence(booth: BoothView, heardAtMs: number, format: Format): string {
  const at = format.clock(heardAtMs);
  const emptyAtMs = booth.outlook.media?.emptyAtMs.p50 ?? null;
  const outlook = paperOutlook(booth);
  if (outlook === "lasts") return words.silentWell(at);
  if (outlook === "ends" && emptyAtMs !== null) return words.silentShort(at, format.clock(emptyAtMs));
  return words.silentPlain(at);
}

/** How long the paper lasts, for a booth that nothing presses. */
function paperSentence(booth: BoothView, nowMs: number, format: Format): string {
  const { booking } = booth;
  const media = booth.outlook.media;
  if (booking === null) return words.noHours;
  if (nowMs >= booking.closeAtMs) return words.closed(format.clock(booking.closeAtMs));
  const opening = nowMs < booking.openAtMs ? words.opens(format.clock(booking.openAtMs)) : null;
  if (booth.media === null) return opening === null ? words.noPaper : `${opening}. ${words.noPaper}`;
  if (booth.printer?.state == null && booth.health === "unknown")
    return opening === null ? words.noPrinter : `${opening}. ${words.noPrinter}`;
  if (media === null) return opening === null ? words.noRate : `${opening}.`;
  switch (paperOutlook(booth)) {
    case "lasts":
      return lastingSentence(opening ?? words.lasts, media, format);
    case "mayLast":
      return words.justLasts(words.inTen(Math.round(media.lastsChance * 10)));
    case "ends":
    case "notKnown":
      return media.emptyAtMs.p50 === null
        ? words.justLasts(words.inTen(Math.round(media.lastsChance * 10)))
        : words.endsAbout(format.clock(media.emptyAtMs.p50));
  }
}

/** A roll that lasts; that no other is there is told where a busy night might want one. */
function lastingSentence(start: string, media: MediaOutlook, format: Format): string {
  const spare = start + words.spare(format.count(inFives(media.leftAtClose.p50)));
  const isBare = media.rolls.spares === 0 && media.rolls.needed > 0;
  return isBare ? `${spare} ${step.noSpare}` : spare;
}

/** "about 158" for what is counted or doubtful, "158" for what a meter or a person says. */
export function figureText(media: NonNullable<BoothView["media"]>, format: Format): string {
  const isExact = media.figure === "metered" || media.figure === "confirmed";
  return (isExact ? "" : `${words.about} `) + format.count(media.sheetsLeft);
}

/** Within this of the limit the temperature is worth a line on the card. */
const nearLimitC = 8;
/** Readings older than this are said with their time. */
const freshMs = 5 * 60_000;

/** The line on temperature, for a trailer and for a booth near its limit; null where it would say nothing new. */
export function heatSentence(booth: BoothView, nowMs: number, format: Format): string | null {
  const { inside } = booth;
  if (booth.alerts.some((alert) => alert.matter === "tooHot")) return null;
  if (inside === null || (!booth.isTrailer && inside.insideC < booth.limitC - nearLimitC)) return null;
  return nowMs - inside.atMs > freshMs
    ? words.heatOld(format.temperature(inside.insideC), format.clock(inside.atMs))
    : words.heat(format.temperature(inside.insideC), format.temperature(booth.limitC));
}
