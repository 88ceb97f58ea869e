import { chipOf, sentence, type AlertWords, type Telling } from "./telling.ts";

/** The texts about what stands at the booth and is gone, in English. */

const named = (partName: string | null): string => (partName === null ? "" : ` ("${partName.slice(0, 40)}")`);

export function printerUnseenWords({ alert, who, format }: Telling): AlertWords {
  const { fault, partName, queuedJobs } = alert;
  const doNow = "check its cable and its switch";
  const since = format.clock(alert.sinceAtMs);
  const why =
    fault === "notFound"
      ? `Its printer${named(partName)} is not known to its computer since ${since}.`
      : `Nothing is seen of its printer${named(partName)} since ${since}.`;
  const waiting =
    queuedJobs !== null && queuedJobs > 0 ? ` ${format.count(queuedJobs)} prints waited then.` : "";
  return {
    headline: `${who}'s printer is out of sight: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `${why}${waiting} Whether it prints cannot be told from here.`,
    chip: chipOf(alert, format),
  };
}

export function cameraWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "check its cable, its power and whether it sleeps";
  return {
    headline: `${who}'s camera is gone: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It${named(alert.partName)} has not been seen since ${format.clock(alert.sinceAtMs)}.`,
    chip: chipOf(alert, format),
  };
}

export function tabletWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "check its power and its Wi-Fi";
  return {
    headline: `${who}'s sharing tablet is gone: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It${named(alert.partName)} has not answered since ${format.clock(alert.sinceAtMs)}. Printing goes on.`,
    chip: chipOf(alert, format),
  };
}

export function routerWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "check its power and its cables";
  return {
    headline: `${who}'s router is gone: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It${named(alert.partName)} has not answered since ${format.clock(alert.sinceAtMs)}. Sharing waits, printing goes on.`,
    chip: chipOf(alert, format),
  };
}

export function uplinkWords({ alert, who, format }: Telling): AlertWords {
  return {
    headline: `${who} has no internet.`,
    doNow: "Ask the venue about its network, or use a phone's hotspot.",
    detail: `Nothing outside answers since ${format.clock(alert.sinceAtMs)}. Sharing waits, printing goes on.`,
    chip: chipOf(alert, format),
  };
}
