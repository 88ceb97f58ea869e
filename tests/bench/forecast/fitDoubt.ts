import { baselineNames, baselinesAt, saidBy, spreadOut, type BaselineName } from "./baselines.ts";
import { totalSheets, type Evening } from "./evening.ts";
import { askTimes } from "./replayLines.ts";
import { pinballShare } from "./tryEvening.ts";

/** How far each baseline's level may be off. */
export type Doubts = Readonly<Record<BaselineName, number>>;

const tried = [0.1, 0.2, 0.3, 0.4, 0.5, 0.65, 0.8, 1];

/** The doubt with which each baseline would have done best on evenings that are not among those it is judged by. */
export function fitDoubts(evenings: readonly Evening[]): Doubts {
  const costs = Object.fromEntries(baselineNames.map((name) => [name, tried.map(() => 0)])) as Record<
    BaselineName,
    number[]
  >;
  for (const evening of evenings) {
    const total = totalSheets(evening);
    for (const atMs of askTimes(evening)) {
      const outsets = baselinesAt(evening, atMs);
      const seen = sheetsAfter(evening, atMs);
      for (const name of baselineNames)
        tried.forEach((doubt, at) => {
          const said = saidBy(spreadOut(outsets[name], doubt), 0);
          costs[name][at] =
            (costs[name][at] ?? 0) + pinballShare(said, seen, total) / askTimes(evening).length;
        });
    }
  }
  return Object.fromEntries(baselineNames.map((name) => [name, cheapest(costs[name])])) as Doubts;
}

function cheapest(costs: readonly number[]): number {
  return tried[costs.indexOf(Math.min(...costs))] ?? 0.4;
}

function sheetsAfter({ sessions }: Evening, atMs: number): number {
  return sessions.reduce((sum, session) => (session.atMs > atMs ? sum + session.sheets : sum), 0);
}
