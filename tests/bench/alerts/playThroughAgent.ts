import { matter, noticeWhy, role, severity, type Matter } from "@boothward/shared-types";
import * as z from "zod";
import { sheetsLeft } from "../../../seeds/printing.ts";
import type { ScenarioLine } from "../../../seeds/scenarioLine.ts";
import { openAgentHouse, type AgentHouse } from "./agentHouse.ts";
import { minuteMs, type Evening } from "./evening.ts";
import type { Happening } from "./happening.ts";
import { usualPace } from "./stepEvening.ts";
import {
  foreseen,
  sources,
  type Played,
  type PlayedOut,
  type Raised,
  type Taken,
  type Told,
} from "./playEvening.ts";

/** Between two steps everything that is on its way arrives: an agent hangs up when three of its beats go unanswered. */
const stepMs = 20_000;

/** What lies ahead is looked at at other moments than the first time: so far apart it is still the same alert. */
const apartMs = 5 * minuteMs;

/** An item that is seen takes this long to be stored, at the utmost; a hopeless wait ends with it. */
const patienceMs = 20_000;

/**
 * Plays an evening that went its way once more, through a whole agent and a whole dashboard: scenario source, outbox,
 * WebSocket, store, booths, notices, webhook. What was told is what came in at people's webhooks. The crew does what it
 * did the first time, so long after it was told.
 */
export async function playThroughAgent(out: PlayedOut, tickMs = usualPace.tickMs): Promise<Played> {
  const { evening, truths } = out.played;
  const lines = scenarioLines(evening, out.course.at(-1)!.happening.items);
  const house = await openAgentHouse(evening, lines);
  try {
    const endAtMs = evening.startAtMs + (evening.booth.booking.closeMin + 20) * minuteMs;
    let open = out.taken;
    await arrived(house, evening, lines);
    while (house.nowMs() < endAtMs) {
      for (let passedMs = 0; passedMs < tickMs; passedMs += stepMs) {
        house.pass(Math.min(stepMs, tickMs - passedMs));
        await arrived(house, evening, lines);
      }
      await house.tick();
      open = await takeDue(house, open, evening.startAtMs);
    }
    return { evening, truths, raised: raisedIn(house, out), notices: toldIn(house, evening.startAtMs) };
  } finally {
    await house.close();
  }
}

/** What the sources saw, to the end; the link is held where the booth was cut off. */
export function scenarioLines(evening: Evening, items: Happening["items"]): ScenarioLine[] {
  const seen = items.map(({ atMs, item }) => ({
    atMs: Math.max(0, atMs),
    item: { source: sources[item.kind] ?? "booth", ...item },
  }));
  const holds = evening.silences.map(({ fromMin, toMin }) => ({
    ...{ atMs: Math.round(fromMin * minuteMs), holdLink: Math.round((toMin - fromMin) * minuteMs) },
  }));
  const lengthMs = (evening.booth.booking.closeMin + 20) * minuteMs;
  const name = `An invented evening, ${evening.seed}`;
  return [
    { scenario: name, lengthMs },
    ...[...seen, ...holds].filter(({ atMs }) => atMs <= lengthMs).sort((a, b) => a.atMs - b.atMs),
  ];
}

/** Waits until the dashboard has all that was seen by now, or at least the agent, where it is cut off. */
export async function arrived(
  house: AgentHouse,
  { startAtMs, silences }: Pick<Evening, "startAtMs" | "silences">,
  lines: readonly ScenarioLine[],
): Promise<void> {
  const nowMin = (house.nowMs() - startAtMs) / minuteMs;
  const isAway = silences.some(
    ({ fromMin, toMin }) => fromMin <= nowMin && nowMin < toMin + (2 * stepMs) / minuteMs,
  );
  // The agent's own start is one item more.
  const due = 1 + lines.filter((line) => "item" in line && line.atMs <= house.nowMs() - startAtMs).length;
  const { flow } = house;
  const isHere = () => flow.isLinked && flow.ackedSeq >= due && flow.unansweredBeats <= 0;
  const fromMs = performance.now();
  for (let turns = 0; !isHere(); turns += 1) {
    if (isAway && turns >= 20) return;
    if (performance.now() - fromMs > patienceMs)
      throw new Error(
        `at ${nowMin.toFixed(1)} min ${due} items are due, through ${JSON.stringify(flow)} came`,
      );
    await new Promise((resolve) => setTimeout(resolve, 1));
    // What the agent put off to "at once" comes due.
    house.pass(0);
  }
}

const living = z.object({ alertId: z.string(), raisedAtMs: z.number() });

/** Says for each alert that is due that somebody is on it; gives those that are still to come. */
async function takeDue(
  house: AgentHouse,
  open: readonly Taken[],
  startAtMs: number,
): Promise<readonly Taken[]> {
  const left: Taken[] = [];
  for (const taken of open) {
    const wasAtMs = startAtMs + taken.raisedAtMin * minuteMs;
    const raised = house
      .rows(
        `select "alertId", "raisedAtMs" from alert where "matter" = '${taken.matter}' and "raisedAtMs" > 0`,
        living,
      )
      .find(({ raisedAtMs }) => Math.abs(raisedAtMs - wasAtMs) <= apartMs);
    if (raised !== undefined && house.nowMs() >= raised.raisedAtMs + taken.afterMs)
      await house.take(raised.alertId);
    else left.push(taken);
  }
  return left;
}

const stepRow = z.object({
  ...{
    alertId: z.string(),
    matter,
    severity,
    atMs: z.number(),
    step: z.enum(["raised", "worse", "reopened"]),
  },
  takenAtMs: z.nullable(z.number()),
});

function raisedIn(house: AgentHouse, { played, course }: PlayedOut): Raised[] {
  const sql = `select s."alertId", a."matter", s."severity", s."atMs", s."step", (select min(t."atMs") from "alertStep" t
      where t."alertId" = s."alertId" and t."step" = 'taken') "takenAtMs" from "alertStep" s
    join alert a on a."alertId" = s."alertId" where s."step" in ('raised', 'worse', 'reopened') order by s."atMs"`;
  return house.rows(sql, stepRow).map(({ atMs, step, takenAtMs, ...row }) => {
    const atMin = (atMs - played.evening.startAtMs) / minuteMs;
    const happening = course.findLast(({ fromMin }) => fromMin < atMin - apartMs / minuteMs)!.happening;
    const isForecast = foreseen[row.matter] !== undefined && !hasCome(row.matter, happening, atMin);
    const comesAtMin = isForecast ? foreseen[row.matter]!(happening, atMin) : null;
    const isTaken = takenAtMs !== null && takenAtMs <= atMs;
    return { ...row, change: step, atMin, isTaken, isForecast, comesAtMin };
  });
}

function hasCome(of: Matter, { booth, printing, insideC }: Happening, atMin: number): boolean {
  if (of === "tooHot") return (insideC.findLast((each) => each.atMin <= atMin)?.insideC ?? 0) >= booth.limitC;
  return sheetsLeft(booth.booking.sheetsLoaded, printing, atMin) <= 0;
}

const noticeRow = z.object({
  ...{ noticeId: z.string(), alertId: z.string(), matter, severity, why: noticeWhy, toRole: role },
});

/** What came in at the webhooks, each as often as it came. */
function toldIn({ rows, heard }: AgentHouse, startAtMs: number): Told[] {
  const sql = `select n."noticeId", n."alertId", a."matter", n."severity", n."why", n."toRole" from notice n
    join alert a on a."alertId" = n."alertId"`;
  const notices = new Map(rows(sql, noticeRow).map((row) => [row.noticeId, row]));
  return heard.flatMap(({ noticeId, role: toRole, atMs }) => {
    const notice = notices.get(noticeId);
    if (notice === undefined) return [];
    const { alertId, matter: of, severity: loud, why } = notice;
    return [{ alertId, matter: of, severity: loud, why, toRole, atMin: (atMs - startAtMs) / minuteMs }];
  });
}
