import { forecastHeat, type HeatPoint } from "../forecast/heat/forecastHeat.ts";
import { heatRunOf, withReading, type HeatRun } from "../forecast/heat/heatRun.ts";
import type { ReadingFault } from "../forecast/heat/whyNotReading.ts";
import { readHeatLine, type HeatLine } from "./heatLines.ts";
import { ReplayRefusal, type Replay } from "./replay.ts";

/**
 * What is answered to one ask. `crossChance60` is null without a limit. `notEnoughData` is there, and true, when the
 * band is an honest guess only: too few readings, or too old ones; before the first reading all figures are null.
 */
export type HeatAnswer = {
  readonly at: string;
  readonly forecast: readonly Record<keyof HeatPoint, number | null>[];
  readonly crossChance60: number | null;
  readonly notEnoughData?: true;
};

type LineOf<Kind extends HeatLine["kind"]> = Extract<HeatLine, { kind: Kind }>;

/** Plays the readings of a thermometer again, line by line, through the forecast that the dashboard uses. */
export function openHeatReplay(): Replay<HeatLine, HeatAnswer> {
  let run: HeatRun | null = null;
  const playing = (kind: string): HeatRun => {
    if (run === null) throw new ReplayRefusal(`field "kind" is "${kind}": no site came before it`);
    return run;
  };
  return {
    read: readHeatLine,
    close: () => {
      run = null;
    },
    take: (line, remark) => {
      switch (line.kind) {
        case "site":
          run = heatRunOf(line.site);
          return null;
        case "temp":
          run = takeTemp(playing(line.kind), line, remark);
          return null;
        case "ask":
          return answerAsk(playing(line.kind), line);
      }
    },
  };
}

const faultWords: Readonly<Record<ReadingFault, string>> = {
  powerOnValue: "is what a thermometer says before its first measurement",
  noAirTemperature: "is no air temperature in Celsius",
  outOfOrder: "comes after a later one",
  spike: "is far from the readings before it, and waits for the next ones to agree",
  stuck: "has not moved for too long",
};

function takeTemp(run: HeatRun, line: LineOf<"temp">, remark: (text: string) => void): HeatRun {
  const { at, insideC, outsideC } = line;
  if (insideC === null) return run;
  const next = withReading(run, { atMs: at.atMs, insideC, outsideC });
  if (next.fault !== null)
    remark(`field "insideC" is ${String(insideC)}: ${faultWords[next.fault]}; the reading is left out`);
  return next;
}

const unknown = [15, 30, 60].map((minutes) => ({ minutes, p10: null, p50: null, p90: null }));

function answerAsk(run: HeatRun, { at }: LineOf<"ask">): HeatAnswer {
  const ahead = forecastHeat(run, at.atMs);
  if (ahead === null) return { at: at.text, forecast: unknown, crossChance60: null, notEnoughData: true };
  return {
    at: at.text,
    forecast: ahead.points.map(({ minutes, p10, p50, p90 }) => ({
      minutes,
      p10: rounded(p10),
      p50: rounded(p50),
      p90: rounded(p90),
    })),
    crossChance60: ahead.crossChance60 === null ? null : rounded(ahead.crossChance60),
    ...(ahead.basis === "notEnoughData" ? { notEnoughData: true as const } : {}),
  };
}

function rounded(figure: number): number {
  return Math.round(figure * 10_000) / 10_000;
}
