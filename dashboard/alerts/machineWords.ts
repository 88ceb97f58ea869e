import { chipOf, sentence, type AlertWords, type Formatter, type Telling } from "./telling.ts";

/** The texts about the booth's computer, in English. */

const minuteMs = 60_000;

export function batteryWords({ alert, who, format }: Telling): AlertWords {
  const { batteryMin, batteryPct } = alert;
  const left =
    batteryMin !== null
      ? `for about ${format.minutes(batteryMin * minuteMs)}`
      : batteryPct !== null
        ? `at ${format.count(batteryPct)} %`
        : "";
  const how = batteryMin === null ? " How long it lasts is not known yet." : "";
  const level = batteryPct === null ? "" : ` It is at ${format.count(batteryPct)} %.`;
  return {
    headline: `${who} runs on its battery ${left}`.trimEnd() + ": plug it in.",
    doNow: "Plug it in.",
    detail: `Off the mains since ${format.clock(alert.sinceAtMs)}.${level}${how} A tripped breaker is for the venue's own people.`,
    chip: chipOf(alert, format),
  };
}

export function diskWords({ alert, who, format }: Telling): AlertWords {
  const { diskFreeMb, diskNeededMb } = alert;
  const known =
    diskFreeMb === null || diskNeededMb === null
      ? ""
      : `${sizeText(diskFreeMb, format)} are free; the rest of the night may need ${sizeText(diskNeededMb, format)}.`;
  return {
    headline: `${who}'s disk is nearly full: move old pictures off it.`,
    doNow: "Move old pictures off it, none of tonight's.",
    detail: `Pictures may not be saved. ${known}`.trimEnd(),
    chip: chipOf(alert, format),
  };
}

function sizeText(megabytes: number, { count }: Formatter): string {
  return `${count(Math.round(megabytes / 100) * 100)} MB`;
}

export function clockWords({ alert, who, format }: Telling): AlertWords {
  const { clockOffMs } = alert;
  const how =
    clockOffMs === null
      ? "claims times that have not come"
      : `is ${format.minutes(Math.abs(clockOffMs))} ${clockOffMs > 0 ? "behind" : "ahead"}`;
  return {
    headline: `${who}'s clock ${how}: set it right.`,
    doNow: "Set it right, or let the computer set it by itself.",
    detail: "Times here are corrected; those of the booth program and its pictures are not.",
    chip: chipOf(alert, format),
  };
}

export function updateWords({ alert, who, format }: Telling): AlertWords {
  const { byAtMs } = alert;
  const doNow =
    byAtMs === null ? "put it off until after the close" : `restart it by ${format.clock(byAtMs)}`;
  return {
    headline: `${who}'s computer wants to restart: ${doNow}.`,
    doNow: sentence(doNow),
    detail: "An update waits for it. Left alone it may restart by itself while guests are there.",
    chip: chipOf(alert, format),
  };
}

export function sleepWords({ alert, who, format }: Telling): AlertWords {
  const { sleepsAfterMin } = alert;
  const after = sleepsAfterMin === null ? "" : ` after ${format.minutes(sleepsAfterMin * minuteMs)}`;
  const doNow = "set it to stay awake";
  return {
    headline: `${who}'s computer falls asleep${after}: ${doNow}.`,
    doNow: sentence(doNow),
    detail: "A quiet hour would stop the booth. The setting is among those for power, on mains.",
    chip: chipOf(alert, format),
  };
}
