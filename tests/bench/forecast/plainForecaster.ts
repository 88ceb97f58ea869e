import {
  beliefOfPlan,
  demandIn,
  nbAtMost,
  nbQuantiles,
  withSeen,
} from "../../../dashboard/forecast/index.ts";
import type { Answer, Forecaster } from "./tryEvening.ts";
import type { PlanLine } from "./replayLines.ts";

const hourMs = 3_600_000;

/** The forecast of one rate for the whole evening, learned from plan and counts. */
export function openPlainForecaster(): Forecaster {
  let plan: PlanLine | null = null;
  let used = 0;
  const answer = (of: PlanLine, at: string): Answer => {
    const [start, end, now] = [of.start, of.end, at].map((iso) => Date.parse(iso));
    const [s = 0, e = 0, n = 0] = [start, end, now];
    const planned = of.guests === null ? of.sheetsLoaded : of.guests * 0.75 * (of.sheetsPerSession ?? 1.7);
    const belief = withSeen(beliefOfPlan((planned / (e - s)) * hourMs, 0.4), used, (n - s) / hourMs);
    const demand = demandIn(belief, (e - n) / hourMs, { clumping: 2, drift: 0.25 });
    const [p10 = 0, p50 = 0, p90 = 0] = nbQuantiles(demand, [0.1, 0.5, 0.9]);
    const sheetsLeft = of.sheetsLoaded - used;
    return { at, sheetsLeft, demandToEnd: { p10, p50, p90 }, lastsChance: nbAtMost(demand, sheetsLeft) };
  };
  return {
    take(line) {
      if (line.kind === "plan") [plan, used] = [line, 0];
      if (line.kind === "session") used += line.sheets;
      return line.kind === "ask" && plan !== null ? answer(plan, line.at) : null;
    },
  };
}
