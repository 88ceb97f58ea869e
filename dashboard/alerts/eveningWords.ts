import { chipOf, sentence, type AlertWords, type Telling } from "./telling.ts";

/** The texts about how the evening goes, and about who can be told, in English. */

export function idleWords({ alert, who, format }: Telling): AlertWords {
  const { sessionsExpected } = alert;
  const doNow = "go there and try it once";
  const groups = sessionsExpected === null ? "some" : `about ${format.count(sessionsExpected)}`;
  return {
    headline: `${who} has had no guests since ${format.clock(alert.sinceAtMs)}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `As the evening went, ${groups} groups were to be expected since. It may be hidden, or wait for something.`,
    chip: chipOf(alert, format),
  };
}

export function printSizeWords({ alert, who, format }: Telling): AlertWords {
  const { printSize, printSizes } = alert;
  const doNow = "change its layout";
  const what =
    printSize === null ? "a wrong size" : `${printSize.slice(0, 10)}, not ${printSizes.join(", ")}`;
  return {
    headline: `${who} prints ${what}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It is not the size that was booked, since ${format.clock(alert.sinceAtMs)}. A larger one also uses up more paper.`,
    chip: chipOf(alert, format),
  };
}

export function overrunWords({ alert, who, format }: Telling): AlertWords {
  const { sessionsCounted } = alert;
  const doNow = "extend it, or close it";
  const since = format.clock(alert.sinceAtMs);
  const guests =
    sessionsCounted === null
      ? "Prints still come out."
      : `Groups of guests since ten minutes after it: ${format.count(sessionsCounted)}.`;
  return {
    headline: `${who} serves on after its close at ${since}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It was booked until ${since}. ${guests}`,
    chip: chipOf(alert, format),
  };
}

export function notOpenWords(telling: Telling): AlertWords {
  const { alert, who, format } = telling;
  // Before doors it is only "soon".
  if (alert.severity === "plan") return notReadyWords(telling);
  const doNow = "open it and say so on its page";
  const since = format.clock(alert.sinceAtMs);
  return {
    headline: `${who} was to open at ${since}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `Guests were promised it from ${since} on.`,
    chip: chipOf(alert, format),
  };
}

function notReadyWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "finish its checks and say so";
  const since = format.clock(alert.sinceAtMs);
  return {
    headline: `${who} was to stand ready by ${since}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: `It was promised to stand ready by ${since}; nobody has said yet that it is checked.`,
    chip: chipOf(alert, format),
  };
}

export function testWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "send a test alert and see it arrive";
  return {
    headline: `${who}: ${doNow}, none has yet.`,
    doNow: sentence(doNow),
    detail: "Until one has, nobody knows whether an alert would be heard tonight.",
    chip: chipOf(alert, format),
  };
}

export function attendantWords({ alert, who, format }: Telling): AlertWords {
  const doNow = "send its attendant their link";
  return {
    headline: `${who}: nobody there can be told of alerts: ${doNow}.`,
    doNow: sentence(doNow),
    detail:
      "Opened on their phone, it asks whether alerts may come there. Until then they come to you alone.",
    chip: chipOf(alert, format),
  };
}
