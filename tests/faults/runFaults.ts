import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Dice, pick, seededDice } from "../../seeds/dice.ts";
import { addressOf } from "../../seeds/programs.ts";
import { seeBooths } from "../support/seeBooths.ts";
import { until } from "../support/until.ts";
import { type FaultBench, startFaultBench } from "./faultBench.ts";
import { type Fault, faultPlan } from "./faultPlan.ts";
import { type Ledger, readLedger } from "./ledger.ts";

export type FaultOptions = {
  /** The project's folder, where the bundles are. */
  readonly top: string;
  readonly kills: number;
  readonly cuts: number;
  readonly seed: number;
  readonly agents: number;
  readonly itemsASecond: number;
};

export type FaultReport = {
  agentKills: number;
  dashboardKills: number;
  /** Cuts, and the connections they cut. */
  cuts: number;
  cutConnections: number;
  items: number;
  /** Items that were not yet stored when the last fault had been done: the faults fell into the stream. */
  toComeAtLastFault: number;
  stored: number;
  lost: string[];
  doubled: string[];
  foreign: string[];
  /** What the pages count at the end differs from the scenario in this, one line a booth; empty: in nothing. */
  miscounts: string[];
};

/**
 * What a fault takes beside its wait on two slow cores, ms: a dashboard comes up again, a link that can be cut
 * comes back. Only spreads the faults over the scenario.
 */
const takesMs = { agent: 100, dashboard: 2_000, cut: 800 };

/** The longest wait of an agent before it tries again is 30 s; then it must be there. */
const linkWithinMs = 60_000;

/** How long after scenario and faults the last item may take to arrive. */
const catchUpMs = 90_000;

/**
 * Real agents send a dense scenario through a network of ours to a real dashboard, while agents and
 * dashboard are killed (SIGKILL) and the network is cut at random moments; returns what became of every
 * single item. Throws when a program ends that nobody killed.
 */
export async function runFaults(
  options: FaultOptions,
  say: (line: string) => void,
  nowMs: () => number,
): Promise<FaultReport> {
  const folder = await mkdtemp(join(tmpdir(), "boothward-faults-"));
  const closings: (() => Promise<void>)[] = [() => rm(folder, { recursive: true, force: true })];
  try {
    const plan = faultPlan(options.kills, options.cuts, seededDice(options.seed, "plan"));
    const lengthMs = lengthOf(plan);
    const bench = await startFaultBench({ ...options, folder, lengthMs, nowMs, closings });
    const report = await playFaults(bench, plan, seededDice(options.seed, "who"), say);
    await count(bench, report);
    return report;
  } finally {
    for (const close of closings.reverse()) await close();
  }
}

function lengthOf(plan: readonly Fault[]): number {
  return plan.reduce((sum, { waitMs, what }) => sum + waitMs + takesMs[what], 4_000);
}

async function playFaults(
  bench: FaultBench,
  plan: readonly Fault[],
  dice: Dice,
  say: (line: string) => void,
): Promise<FaultReport> {
  const report: FaultReport = {
    ...{ agentKills: 0, dashboardKills: 0, cuts: 0, cutConnections: 0 },
    ...{ items: 0, toComeAtLastFault: 0, stored: 0 },
    ...{ lost: [], doubled: [], foreign: [], miscounts: [] },
  };
  for (const [i, { waitMs, what }] of plan.entries()) {
    await new Promise((resolve) => setTimeout(resolve, waitMs));
    for (const program of [bench.dashboard, ...bench.booths.map(({ agent }) => agent)]) program.check();
    await doFault(bench, what, dice, report);
    if ((i + 1) % 10 === 0) say(`${String(i + 1)} of ${String(plan.length)} faults`);
  }
  report.toComeAtLastFault = ledgersOf(bench).reduce((sum, { lost }) => sum + lost.length, 0);
  return report;
}

async function doFault(
  bench: FaultBench,
  what: Fault["what"],
  dice: Dice,
  report: FaultReport,
): Promise<void> {
  if (what === "cut") {
    await until(() => bench.proxy.carrying() > 0, "a link that can be cut", linkWithinMs);
    report.cuts++;
    report.cutConnections += bench.proxy.cut();
  } else if (what === "agent") {
    report.agentKills++;
    await pick(
      dice,
      bench.booths.map((booth) => [booth, 1] as const),
    ).agent.killAndStart();
  } else {
    report.dashboardKills++;
    const started = await bench.dashboard.killAndStart();
    // Mostly it may come up first; sometimes the next fault hits while it starts.
    if (dice() < 0.7) await addressOf(started);
  }
}

function ledgersOf({ booths, dataFolder }: FaultBench): Ledger[] {
  return booths.map(({ boothId, scenario }) => readLedger(dataFolder, boothId, scenario.identities));
}

/** Waits until everything has arrived, or no longer, and writes down what the store and the pages say. */
async function count(bench: FaultBench, report: FaultReport): Promise<void> {
  const { booths, api, dashboard } = bench;
  const isIn = () => ledgersOf(bench).every(({ lost }) => lost.length === 0);
  await until(isIn, "every item is stored", catchUpMs).catch(() => undefined);
  dashboard.check();
  const miscounts = async (): Promise<string[]> => {
    const seen = await seeBooths(api);
    return booths.flatMap(({ name, boothId, scenario: { sessions, pitches } }) => {
      const counts = seen.find((one) => one.boothId === boothId)?.counts;
      const isSame = counts?.sessions === sessions && counts.pitches === pitches;
      return isSame
        ? []
        : [`${name}: ${JSON.stringify(counts)} for ${JSON.stringify({ sessions, pitches })}`];
    });
  };
  const areCounted = async () => (await miscounts()).length === 0;
  await until(areCounted, "the pages count every item", 15_000).catch(() => undefined);
  report.miscounts = await miscounts();
  report.items = booths.reduce((sum, { scenario }) => sum + scenario.identities.length, 0);
  for (const ledger of ledgersOf(bench)) {
    report.stored += ledger.stored;
    report.lost.push(...ledger.lost);
    report.doubled.push(...ledger.doubled);
    report.foreign.push(...ledger.foreign);
  }
}
