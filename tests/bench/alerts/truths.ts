import { heatIndexC } from "../../../dashboard/forecast/air/heatIndex.ts";
import { openingViews } from "../../../dashboard/forecast/sun/boothFrame.ts";
import { isLitByAlmanac } from "../../support/almanacSun.ts";
import { minuteMs, overlaps, type Evening, type Span, type Truth } from "./evening.ts";
import { usedUpAtMin, type Happening } from "./happening.ts";

/** A printer that stands for less is pausing, and a cover that is open for less is being worked at. */
const leastStopMin = 1.5;
const leastCoverMin = 3.5;

/** All that somebody had to hear of, from what really happened. */
export function truthsOf(evening: Evening, happening: Happening): Truth[] {
  const { closeMin } = happening.booth.booking;
  const all = [
    ...evening.truths.map((truth) => whileStopped(truth, happening)),
    ...stopsOf(happening),
    ...runOutsOf(happening),
    ...sunOf(evening),
    ...hotOf(happening),
    ...hardOnGuestsOf(evening, happening),
    ...notSaidOf(evening, happening),
  ];
  return all
    .filter(({ fromMin }) => fromMin < closeMin - 5)
    .map((truth) => ({ ...truth, toMin: Math.min(truth.toMin, closeMin) }));
}

/** Where nothing can be printed, the printer says itself why nobody comes. */
function whileStopped(truth: Truth, { printing }: Happening): Truth {
  if (truth.matter !== "boothIdle") return truth;
  const isSlight = printing.stops.some(
    ({ fromMin, toMin }) => fromMin <= truth.fromMin && toMin >= truth.toMin,
  );
  return isSlight ? { ...truth, isSlight } : truth;
}

/** What a booth that is not heard, or whose printer is not seen, cannot tell of. */
export function blindOf({ silences, truths }: Evening): readonly Span[] {
  return [
    ...silences.filter(({ fromMin, toMin }) => toMin - fromMin > 1),
    ...truths.filter(({ matter }) => matter === "printerUnseen"),
  ];
}

function stopsOf({ printing }: Happening): Truth[] {
  return printing.stops
    .filter(
      ({ fromMin, toMin, reason }) =>
        toMin - fromMin >= (reason.startsWith("cover-open") ? leastCoverMin : leastStopMin),
    )
    .map(({ fromMin, toMin }) => ({ fromMin, toMin, matter: "printerStopped", severity: "actNow" }));
}

/** Time to fetch a roll, and to fetch one from elsewhere. */
const beforeMin = { mediaLow: 10, sparesShort: 30 } as const;

/** Each end of paper has to be foretold: of the roll while it could be changed, of all rolls while more can be brought. */
function runOutsOf({ printing }: Happening): Truth[] {
  return printing.stops
    .filter(({ reason }) => reason.startsWith("media-empty"))
    .map(({ fromMin, toMin }) => {
      const matter = toMin === Infinity ? "sparesShort" : "mediaLow";
      const fittedMin = printing.fitted.findLast((each) => each.atMin < fromMin)?.atMin ?? 0;
      const truth = {
        matter,
        severity: "plan",
        fromMin: fromMin - beforeMin[matter],
        toMin: fromMin,
      } as const;
      // With the last spare fitted, the loaded roll's own alert asks for another.
      if (matter === "sparesShort") return { ...truth, sinceMin: 0, alsoBy: "mediaLow" } as const;
      return { ...truth, sinceMin: fittedMin };
    });
}

/** By an almanac of another make, minute by minute. */
function sunOf({ booking, settings, startAtMs, booth }: Evening): Truth[] {
  const { headingDeg } = booking.standing;
  if (settings.box === null || headingDeg === null) return [];
  const views = openingViews({ ...settings.box, headingDeg });
  const site = {
    latitudeDeg: booking.latitudeDeg ?? 0,
    longitudeDeg: booking.longitudeDeg ?? 0,
    horizon: [],
  };
  const isLit = (min: number) => views.some((view) => isLitByAlmanac(view, site, startAtMs + min * minuteMs));
  const { openMin, closeMin } = booth.booking;
  return stretches(isLit, openMin - 60, closeMin)
    .filter(({ fromMin, toMin }) => toMin - fromMin >= 6 && fromMin > openMin - 60)
    .map((span) => ({ ...span, matter: "sunComing", severity: "plan" }));
}

function hotOf({ booth, insideC }: Happening): Truth[] {
  const at = new Map(insideC.map((each) => [each.atMin, each.insideC]));
  return stretches((min) => (at.get(min) ?? 0) >= booth.limitC, booth.booking.openMin, booth.booking.closeMin)
    .filter(({ fromMin, toMin }) => toMin - fromMin >= 3)
    .slice(0, 1)
    .map((span) => ({ ...span, matter: "tooHot", severity: "actNow" }));
}

/** "Extreme caution" by the National Weather Service begins at 90 F. */
const hardFromC = (90 - 32) / 1.8;

/** Hard on guests even if the air were dry. */
function hardOnGuestsOf({ kind }: Evening, { booth, insideC }: Happening): Truth[] {
  if (kind !== "trailer") return [];
  const at = new Map(insideC.map((each) => [each.atMin, heatIndexC(each.insideC, 10)]));
  const hotSpans = (leastC: number, leastMin: number) =>
    stretches((min) => (at.get(min) ?? 0) >= leastC, 30, booth.booking.closeMin).filter(
      ({ fromMin, toMin }) => toMin - fromMin >= leastMin,
    );
  const plain = hotSpans(hardFromC + 0.3, 10).slice(0, 1);
  const slight = hotSpans(hardFromC - 0.7, 2);
  const truth = { matter: "heatForGuests", severity: "plan" } as const;
  return [
    ...plain.map((span) => ({ ...span, ...truth })),
    ...slight.map((span) => ({ ...span, ...truth, isSlight: true })),
  ];
}

/** A roll that was changed and not said: somebody has to be asked, once more is printed than the old one had. */
function notSaidOf({ booth }: Evening, { printing }: Happening): Truth[] {
  const [first] = printing.fitted;
  if (booth.saysRolls || first === undefined) return [];
  // Until then nothing that is seen differs from an evening without the change.
  if (usedUpAtMin(printing, booth.booking.sheetsLoaded, -Infinity) === null) return [];
  return [{ fromMin: first.atMin, toMin: Infinity, matter: "countDoubtful", severity: "plan" }];
}

function stretches(isSo: (min: number) => boolean, fromMin: number, toMin: number): Span[] {
  const spans: { fromMin: number; toMin: number }[] = [];
  for (let min = Math.floor(fromMin); min <= toMin; min += 1) {
    const last = spans.at(-1);
    if (!isSo(min)) continue;
    if (last !== undefined && min - last.toMin <= 2) last.toMin = min;
    else spans.push({ fromMin: min, toMin: min });
  }
  return spans;
}

export function isBlind(truth: Truth, blind: readonly Span[]): boolean {
  const isOwn = truth.matter === "agentSilent" || truth.matter === "printerUnseen";
  return !isOwn && blind.some((span) => overlaps(span, truth));
}
