import type { BoothEvening, BoothView } from "@boothward/shared-types/view";
import { paperOutlook, pressingAlert, quietStop } from "../state/boothLook.ts";
import { alertText } from "./alertText.ts";
import { figureText, presentSentence } from "./boothSentence.ts";
import { heat, paper, sessions } from "./en/booth.ts";
import { card, nameOf, strip, verdict } from "./en/today.ts";
import type { Format } from "../../alerts/format.ts";

/** The sentence at the top of a booth's page. `cutOffMs`: how long the dashboard has been out of reach, or null. */
export function boothVerdict(
  booth: BoothView,
  nowMs: number,
  format: Format,
  cutOffMs: number | null,
): string {
  const name = nameOf(booth.name, booth.isTrailer);
  if (cutOffMs !== null) return verdict.cutOff(format.minutes(cutOffMs));
  if (booth.heardAtMs === null) return verdict.neverHeard([booth.name]);
  const alert = pressingAlert(booth);
  if (alert !== null) return alertText(alert, booth, nowMs, format).headline;
  switch (booth.health) {
    case "silent":
      return verdict.silent(name, format.minutes(nowMs - booth.heardAtMs));
    case "unknown":
      return verdict.unknown([booth.name]);
    case "stopped": {
      const stop = quietStop(booth);
      return stop === null ? verdict.stopped(name) : alertText(stop, booth, nowMs, format).headline;
    }
    case "needsAHand":
      return verdict.handNeeded(name);
    case "watch":
    case "fine": {
      const { doNow, why } = presentSentence(booth, nowMs, format);
      return doNow === "" ? why : doNow;
    }
  }
}

/** What the picture of the evening says, as a sentence. */
export function paperHeading(booth: BoothView, format: Format, isOld: boolean): string {
  const { media, booking } = booth;
  if (media === null) return paper.none;
  const figure = figureText(media, format);
  const text = figure.charAt(0).toUpperCase() + figure.slice(1);
  if (isOld && booth.heardAtMs !== null) return paper.then(text, format.clock(booth.heardAtMs));
  if (booking === null) return paper.left(text) + paper.noHours;
  const outlook = booth.outlook.media;
  if (outlook === null) return paper.left(text) + paper.plain;
  switch (paperOutlook(booth)) {
    case "lasts":
      return paper.left(text) + paper.lasts;
    case "mayLast":
      return paper.left(text) + paper.mayLast(card.inTen(Math.round(outlook.lastsChance * 10)));
    case "ends":
    case "notKnown":
      return outlook.emptyAtMs.p50 === null
        ? paper.left(text) + paper.mayLast(card.inTen(Math.round(outlook.lastsChance * 10)))
        : paper.left(text) +
            paper.until(format.clock(outlook.emptyAtMs.p50), closeClock(booking.closeAtMs, format));
  }
}

/** A close as it is spoken: 00:00 is easily taken for the wrong end of a day. */
export function closeClock(atMs: number, format: Format): string {
  return strip.clock(format.clock(atMs));
}

/** How sure the forecast of the paper is, as a sentence; empty where there is none. */
export function paperBand(booth: BoothView, format: Format): string {
  const outlook = booth.outlook.media;
  if (outlook === null || booth.booking === null) return "";
  const { p10, p90 } = outlook.emptyAtMs;
  if (p10 !== null && p90 !== null) return paper.band(format.clock(p10), format.clock(p90));
  if (p10 !== null) return paper.bandOpen(format.clock(p10));
  return paper.noBand(
    format.count(Math.max(0, outlook.leftAtClose.p10)),
    format.count(Math.max(0, outlook.leftAtClose.p90)),
  );
}

/** Changes smaller than this in a quarter of an hour are called steady. */
const steadyC = 0.3;
const freshMs = 5 * 60_000;

export function heatHeading(booth: BoothView, nowMs: number, format: Format): string {
  const { inside } = booth;
  if (inside === null) return heat.none;
  const now = format.temperature(inside.insideC, 1);
  const limit = format.temperature(booth.limitC);
  if (nowMs - inside.atMs > freshMs) return heat.old(now, format.clock(inside.atMs));
  if (inside.insideC > booth.limitC) return heat.over(now, limit);
  const change = inside.per15MinC ?? 0;
  if (change > steadyC) return heat.rising(now, limit);
  return change < -steadyC ? heat.falling(now, limit) : heat.steady(now, limit);
}

export function sessionsHeading(
  booth: BoothView,
  quarters: BoothEvening["quarters"],
  format: Format,
): string {
  const peak = quarters.reduce<BoothEvening["quarters"][number] | null>(
    (best, quarter) => (best === null || quarter.sessions > best.sessions ? quarter : best),
    null,
  );
  if (peak === null || peak.sessions === 0) return sessions.none;
  return sessions.soFar(
    format.count(booth.counts.sessions),
    format.count(peak.sessions),
    format.clock(peak.atMs),
  );
}
