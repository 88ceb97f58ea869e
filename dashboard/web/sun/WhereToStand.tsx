import { useMemo } from "preact/hooks";
import type { BoothFrame, PrinterPlace, SunSite } from "../../forecast/sun/boothFrame.ts";
import { shadeSaving } from "../../forecast/sun/shade.ts";
import { standingAdvice } from "../../forecast/sun/standing.ts";
import type { StandingAdvice } from "../../forecast/sun/standing.ts";
import { units } from "../state/signals.ts";
import { standing as words, windOf } from "../words/en/sun.ts";
import type { Format } from "../../alerts/format.ts";
import { lengthText } from "../words/lengths.ts";
import type { DayPlan } from "./dayPlan.ts";
import { degText, openingNames } from "./planText.ts";

const minuteMs = 60_000;
const shadeDepthM = 1;
/** A difference smaller than this is no advice. */
const newsMinutes = 2;

/** How much sun the printer has in the open hours as it stands, turned, at another place, and with a shade. */
export function WhereToStand(props: { plan: DayPlan; frame: BoothFrame; site: SunSite; format: Format }) {
  const { plan, frame, site, format } = props;
  const found = useMemo(() => {
    const advice = standingAdvice(frame, site, plan.hours, placesIn(frame));
    return { advice, shades: shadesOf(frame, site, plan) };
  }, [plan]);
  const minutes = (n: number) => format.minutes(n * minuteMs);
  const ofSun = (n: number) => (n < 0.5 ? words.none : words.some(minutes(n)));
  const { advice, shades } = found;
  const place = advice.bestPlace;
  const isMoved = place !== null && place.minutes < advice.minutesNow - newsMinutes;
  const isTurned = advice.best.minutes < advice.minutesNow - newsMinutes;
  const facts = [
    {
      name: words.now,
      text: ofSun(advice.minutesNow),
      note: words.facing(degText(frame.headingDeg), windOf(frame.headingDeg)),
    },
    isTurned
      ? {
          name: words.heading,
          text: words.headingFigure(degText(advice.best.headingDeg), windOf(advice.best.headingDeg)),
          note: words.turn(
            degText(Math.abs(advice.best.turnDeg)),
            sideOf(advice),
            ofSun(advice.best.minutes),
          ),
        }
      : { name: words.heading, text: words.asNow, note: "" },
    isMoved
      ? {
          name: words.place,
          text: words.placeAt(
            lengthText(place.printer.xM, units.value),
            lengthText(place.printer.yM, units.value),
          ),
          note: words.placeNote(ofSun(place.minutes)),
        }
      : { name: words.place, text: words.placeNow, note: "" },
    ...shades.map(({ name, saved, left }) => ({
      name: words.shade(lengthText(shadeDepthM, units.value), name),
      text: saved < 0.5 ? words.savesNot : words.saves(minutes(saved)),
      note: words.leaves(ofSun(left)),
    })),
  ];
  return (
    <>
      <h3>{words.title}</h3>
      <p class="do">{adviceText(advice, minutes)}</p>
      <dl class="facts">
        {facts.map((fact) => [
          <dt key={`${fact.name} name`}>{fact.name}</dt>,
          <dd key={fact.name}>
            {fact.text}
            {fact.note !== "" && <small>{fact.note}</small>}
          </dd>,
        ])}
      </dl>
      <p class="small">{words.caution}</p>
    </>
  );
}

function sideOf({ best }: StandingAdvice): string {
  return best.turnDeg < 0 ? words.left : words.right;
}

function adviceText(advice: StandingAdvice, minutes: (n: number) => string): string {
  const { minutesNow, best } = advice;
  const turn = degText(Math.abs(best.turnDeg));
  if (minutesNow < 0.5) return words.well;
  if (best.minutes >= minutesNow - newsMinutes) return words.best(minutes(minutesNow));
  return best.minutes < 0.5
    ? words.turned(turn, sideOf(advice))
    : words.turnedLess(turn, sideOf(advice), minutes(best.minutes), minutes(minutesNow));
}

/** Nine places over the floor, an arm's length off the walls, at the printer's height. */
function placesIn({ widthM, lengthM, printer }: BoothFrame): PrinterPlace[] {
  const across = (sizeM: number) => {
    const offM = Math.min(0.4, sizeM / 4);
    return [offM, sizeM / 2, sizeM - offM];
  };
  return [
    printer,
    ...across(lengthM).flatMap((yM) => across(widthM).map((xM) => ({ xM, yM, heightM: printer.heightM }))),
  ];
}

/** What a shade saves over each opening that lets sun onto the printer that day. */
function shadesOf(frame: BoothFrame, site: SunSite, plan: DayPlan) {
  const names = openingNames(frame.openings);
  return names.flatMap((name, opening) => {
    if ((plan.byOpening[opening] ?? []).length === 0) return [];
    const shade = { opening, depthM: shadeDepthM, heightM: null };
    const { savedMinutes, minutesWith } = shadeSaving(frame, site, plan.hours, shade);
    return [{ name, saved: savedMinutes, left: minutesWith }];
  });
}
