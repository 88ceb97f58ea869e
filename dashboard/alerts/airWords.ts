import { chipOf, sentence, type AlertWords, type Telling } from "./telling.ts";

/** The texts about the air and the sun at the booth, in English. */

const minuteMs = 60_000;

const notASafetyDevice =
  "This is one thermometer's word and no safety device: whoever feels unwell, local rules and emergency services come first.";
const closedTrailer = "Nobody, above all no child or animal, stays in a closed trailer in the sun.";

/** Carried in cold: water on what is live is the danger, so that waiting is the one thing to do. */
export function condensationWords({ alert, who, format }: Telling): AlertWords {
  const { caseC, dewPointC, waitMin } = alert;
  const wait =
    waitMin === null || waitMin === 0 ? "until it is dry" : `for ${format.minutes(waitMin * minuteMs)}`;
  const doNow = `leave its printer off ${wait}`;
  const figures =
    caseC === null || dewPointC === null
      ? ""
      : `It is at about ${format.temperature(caseC)}, and this air leaves water on all that is below ${format.temperature(dewPointC)}. `;
  const never = waitMin === null ? "In this air it does not dry by itself: bring it to drier air. " : "";
  return {
    headline: `${who} came in cold: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `${figures}${never}Inside, and for paper in its carton, it takes longer. Switch nothing on that is wet.`,
    chip: chipOf(alert, format),
  };
}

export function guestHeatWords({ alert, who, isTrailer, format }: Telling): AlertWords {
  const { heatIndexC, feelsC } = alert;
  const doNow = isTrailer ? "open its doors, give shade and water" : "give it air, shade and water";
  const sun = feelsC === null ? "" : `, and up to ${format.temperature(feelsC)} in full sun`;
  const feels =
    heatIndexC === null ? "" : `It feels like ${format.temperature(heatIndexC)} or more in the shade${sun}. `;
  return {
    headline: `${who} is hot for guests and crew: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `${feels}${notASafetyDevice}${isTrailer ? ` ${closedTrailer}` : ""}`,
    chip: chipOf(alert, format),
  };
}

export function sunWords({ alert, who, isTrailer, format }: Telling): AlertWords {
  const from = format.clock(alert.byAtMs ?? alert.sinceAtMs);
  const until = alert.untilAtMs === null ? "" : ` and stays on it until ${format.clock(alert.untilAtMs)}`;
  return {
    headline: `${who} has the sun on its printer from ${from}.`,
    doNow: isTrailer ? "Put the awning out before it does." : "Put up a shade before it does.",
    detail: `Under a clear sky it comes in at ${from}${until}.`,
    chip: `By ${from}`,
  };
}
