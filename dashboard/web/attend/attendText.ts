import type { BoothView } from "@boothward/shared-types/view";
import { quietStop } from "../state/boothLook.ts";
import { presentSentence } from "../words/boothSentence.ts";
import { attend as words } from "../words/en/attend.ts";
import type { Format } from "../../alerts/format.ts";

/** What a booth without a task says: nothing to do, and when to look again; or why nobody can tell. */
export type CalmText = { headline: string; more: string; isDoubt: boolean };

/** `name`: of the booth, as it is spoken. */
export function calmText(booth: BoothView, name: string, nowMs: number, format: Format): CalmText {
  if (booth.heardAtMs === null)
    return { headline: words.neverHeard(name), more: words.neverHeardMore, isDoubt: true };
  if (booth.health === "silent")
    return {
      headline: words.silent(name, format.minutes(nowMs - booth.heardAtMs)),
      more: words.silentDo,
      isDoubt: true,
    };
  if (booth.health === "unknown")
    return { headline: words.unknown(name), more: words.unknownDo, isDoubt: true };
  const stop = quietStop(booth);
  if (stop !== null) {
    const { doNow, why } = presentSentence(booth, nowMs, format);
    return { headline: doNow === "" ? words.nothing : doNow, more: why, isDoubt: false };
  }
  return {
    headline: words.nothing,
    more: `${nextLook(booth, nowMs, format)} ${words.watch}`,
    isDoubt: false,
  };
}

/** The next moment the paper asks for a hand, or how long it lasts. */
function nextLook(booth: BoothView, nowMs: number, format: Format): string {
  const { why, doNow } = presentSentence(booth, nowMs, format);
  const change = booth.outlook.media?.change ?? null;
  if (doNow === "" || change === null || change.advised.atMs <= nowMs) return `${doNow} ${why}`.trim();
  return `${words.nextLook(format.clock(change.advised.atMs), doNow)} ${why}`;
}

/** The booth's figures, each with what it is; an old one says of when it is. */
export type Figure = { name: string; figure: string; isOld: boolean };

const freshMs = 5 * 60_000;

export function figuresOf(booth: BoothView, nowMs: number, isOld: boolean, format: Format): Figure[] {
  const { media, inside, power, counts } = booth;
  const isInsideOld = isOld || (inside !== null && nowMs - inside.atMs > freshMs);
  const isExact = media?.figure === "metered" || media?.figure === "confirmed";
  return [
    {
      name: isOld ? words.leftThen : words.left,
      figure: media === null ? "–" : `${isExact ? "" : "~ "}${format.count(media.sheetsLeft)}`,
      isOld,
    },
    { name: words.lasts, figure: lastsUntil(booth, format), isOld },
    {
      name: inside === null || !isInsideOld ? words.inside : words.insideAt(format.clock(inside.atMs)),
      figure: inside === null ? "–" : format.temperature(inside.insideC),
      isOld: isInsideOld,
    },
    { name: words.sessions, figure: format.count(counts.sessions), isOld },
    {
      name: words.rolls(media?.spareRolls ?? 0),
      figure: media?.spareRolls == null ? "–" : format.count(media.spareRolls),
      isOld,
    },
    { name: words.power, figure: powerText(power, format), isOld },
  ];
}

function lastsUntil({ outlook, booking }: BoothView, format: Format): string {
  const media = outlook.media;
  if (media === null || booking === null) return "–";
  const emptyAtMs = media.emptyAtMs.p50;
  return emptyAtMs === null ? words.toClose : format.clock(emptyAtMs);
}

function powerText(power: BoothView["power"], format: Format): string {
  if (power === null) return "–";
  if (power.isOnMains) return words.mains;
  return power.batteryPct === null ? words.onBattery : words.battery(format.count(power.batteryPct));
}
