import { parseArgs } from "node:util";
import { boundsText, columns, verdict } from "../forecast/printTable.ts";
import { alertMeasures, type AlertMeasures } from "./alertMeasures.ts";
import { drawDays, type SeedRange } from "./drawEvening.ts";
import { playEvening, playOut, type Played } from "./playEvening.ts";
import { playThroughAgent } from "./playThroughAgent.ts";

/** Days when judging, and in a quick run; three booths each. */
const daysJudged = 30;
const daysQuick = 3;

/** Days that are played through a whole agent too: a minute or more an evening. */
const daysThroughAgent = 1;

/** The first day of a range is quiet: the ones after it have troubles. */
const firstTroubled = 1;

/**
 * `npm run bench -- alerts`: what people are told over invented event days with troubles at known times, and over
 * quiet ones, held against what was so. `--seeds tune` takes the days that the rules were tuned on instead of those
 * to judge by. A day of them is played once more through a whole agent and a whole dashboard, and judged by what came in
 * at people's webhooks.
 */
export async function benchAlerts(args: readonly string[]): Promise<string> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      seeds: { type: "string", default: "judge" },
      quick: { type: "boolean", default: false },
      days: { type: "string" },
      through: { type: "string" },
    },
  });
  const days = await playDays(
    seedRange(values.seeds),
    Number(values.days ?? (values.quick ? daysQuick : daysJudged)),
  );
  const through = await playDaysThroughAgent(
    seedRange(values.seeds),
    Number(values.through ?? (values.quick ? 0 : daysThroughAgent)),
  );
  const ways = through === null ? "" : throughTable(through);
  return alertTable(alertMeasures(days)) + ways;
}

type BothWays = { readonly alone: Played[][]; readonly agent: Played[][] };

/** The same evenings by both ways; null: none. */
async function playDaysThroughAgent(range: SeedRange, count: number): Promise<BothWays | null> {
  if (count === 0) return null;
  const ways: BothWays = { alone: [], agent: [] };
  for (const day of drawDays(range, firstTroubled + count).slice(firstTroubled)) {
    const [alone, agent]: [Played[], Played[]] = [[], []];
    for (const evening of day) {
      const out = await playOut(evening, paceThrough);
      alone.push(out.played);
      agent.push(await playThroughAgent(out, paceThrough.tickMs));
    }
    ways.alone.push(alone);
    ways.agent.push(agent);
  }
  return ways;
}

/** As seldom as an agent allows, and as often ahead as a dashboard looks then. */
const paceThrough = { tickMs: 20_000, lookEveryMs: 20_000 };

/** What the bounds of the whole are, for the same evenings by both ways, and whether people were told the same. */
function throughTable({ alone, agent }: BothWays): string {
  const [byRules, byAgent] = [alertMeasures(alone), alertMeasures(agent)];
  const both = (measure: string, of: (seen: AlertMeasures) => number, must: Bounds) => [
    ...[measure, of(byRules).toFixed(3), of(byAgent).toFixed(3), boundsText(must)],
    verdict(of(byAgent), must, must),
  ];
  const told = (days: readonly (readonly Played[])[]) =>
    days
      .flat()
      .flatMap(({ evening, notices }) =>
        notices.map(({ matter, why, toRole }) => `${evening.seed} ${matter} ${why} ${toRole}`),
      );
  const others = [leftOf(told(alone), told(agent)), leftOf(told(agent), told(alone))];
  return `\n${columns([
    [`${byAgent.evenings} evenings through a whole agent`, "rules alone", "agent", "must", ""],
    both("'now' notices to one person a booth-hour", (seen) => seen.nowNoticesPerHour, atMost(1)),
    both(`share missed, of ${byAgent.truths} true matters`, (seen) => seen.missedShare, atMost(0.05)),
    both("false forecast alerts an event", (seen) => seen.falseForecastsPerEvent, atMost(1)),
    ["notices told", ...[alone, agent].map((way) => String(told(way).length)), "", ""],
    ["of those not told the other way", ...others.map((each) => String(each.length)), "", ""],
  ])}${others
    .flat()
    .map((line) => `\n  told one way only: ${line}`)
    .join("")}`;
}

/** What is in the first and not in the second, each as often as it is more. */
function leftOf(first: readonly string[], second: readonly string[]): string[] {
  const rest = [...second];
  return first.filter((each) => {
    const at = rest.indexOf(each);
    if (at >= 0) rest.splice(at, 1);
    return at < 0;
  });
}

export async function playDays(range: SeedRange, count: number): Promise<Played[][]> {
  const days: Played[][] = [];
  for (const day of drawDays(range, count)) {
    const played: Played[] = [];
    for (const evening of day) played.push(await playEvening(evening));
    days.push(played);
  }
  return days;
}

function seedRange(word: string): SeedRange {
  if (word === "tune" || word === "judge") return word;
  throw new Error(`--seeds is tune or judge, not ${word}`);
}

type Bounds = readonly [low: number, high: number];
const atMost = (high: number): Bounds => [-Infinity, high];

/** One table of measures with must and aim, one of matters. */
export function alertTable(seen: AlertMeasures): string {
  return [
    columns([
      [`${seen.evenings} evenings, ${seen.boothHours.toFixed(0)} booth-hours`, "seen", "must", "aim", ""],
      row("alerts a booth-hour, 'good to know' left out", seen.alertsPerHour, atMost(3), atMost(1.5)),
      row("'now' a booth-hour", seen.nowPerHour, atMost(1), atMost(0.5)),
      row("'now' notices to one person a booth-hour", seen.nowNoticesPerHour, atMost(1), atMost(0.7)),
      row(`share missed, of ${seen.truths} true matters`, seen.missedShare, atMost(0.05), atMost(0.02)),
      row(
        "false alerts of what was measured, a booth-hour",
        seen.falseAlarmsPerHour,
        atMost(0.2),
        atMost(0.05),
      ),
      row("the same as 'now'", seen.falseNowPerHour, atMost(0.05), atMost(0.02)),
      row("false forecast alerts an event", seen.falseForecastsPerEvent, atMost(1), atMost(0.4)),
      row("notices to one person in ten minutes, mean", seen.noticesPer10Min, atMost(1), atMost(0.3)),
      row("share of ten minutes with more than ten", seen.floodShare, atMost(0.01), atMost(0)),
      row("most in ten minutes", seen.mostIn10Min, atMost(10), atMost(6)),
      row("share of 'now' among what was told", seen.nowShare, atMost(0.5), atMost(0.2)),
    ]),
    columns([
      ["matter", "true", "missed", "raised", "false", "said after, min", "95 %", "foretold by, min", "5 %"],
      ...seen.byMatter.map(({ matter, truths, missed, raised, false: wrong, delayMin, leadMin }) => [
        ...[matter, truths, missed, raised, wrong].map(String),
        ...[delayMin.p50, delayMin.p95, leadMin.p50, leadMin.p5].map(minutesText),
      ]),
    ]),
  ].join("\n");
}

function minutesText(minutes: number): string {
  return Number.isNaN(minutes) ? "-" : minutes.toFixed(1);
}

function row(measure: string, seen: number, must: Bounds, aim: Bounds): string[] {
  return [measure, seen.toFixed(3), boundsText(must), boundsText(aim), verdict(seen, must, aim)];
}
