import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type DashboardApi, openApi } from "../../seeds/dashboardApi.ts";
import { type Dice, pick, seededDice } from "../../seeds/dice.ts";
import {
  addressOf,
  type AgentPlace,
  firstRunCode,
  layOutAgent,
  pairAgent,
  startAgent,
  startDashboard,
} from "../../seeds/programs.ts";
import { makeBooths, makeOwner } from "../../seeds/setUpDay.ts";
import { venueAt } from "../../seeds/zone.ts";
import { aDay, aDayBooth, aDayBooking } from "../support/aDay.ts";
import { freePort } from "../support/freePort.ts";
import { seeBooths } from "../support/seeBooths.ts";
import { until } from "../support/until.ts";
import { type CutProxy, startCutProxy } from "./cutProxy.ts";
import { denseScenario, type DenseScenario } from "./denseScenario.ts";
import { type Fault, faultPlan } from "./faultPlan.ts";
import { readLedger } from "./ledger.ts";
import { type Restarted, startRestarted } from "./restarted.ts";

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
  stored: number;
  lost: string[];
  doubled: string[];
  foreign: string[];
  /** What the pages count at the end differs from the scenario in this, one line a booth; empty: in nothing. */
  miscounts: string[];
};

/** A program is up again after about this long on two slow cores, ms: only spreads the faults over the scenario. */
const restartMs = 900;

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
    const bench = await setUp(options, folder, lengthOf(plan), nowMs, closings);
    const report = await playFaults(bench, plan, seededDice(options.seed, "who"), say);
    await count(bench, report);
    return report;
  } finally {
    for (const close of closings.reverse()) await close();
  }
}

function lengthOf(plan: readonly Fault[]): number {
  return plan.reduce((sum, { waitMs, what }) => sum + waitMs + (what === "dashboard" ? restartMs : 0), 2_000);
}

type FaultBench = {
  readonly dataFolder: string;
  readonly api: DashboardApi;
  readonly proxy: CutProxy;
  readonly dashboard: Restarted;
  readonly booths: readonly {
    readonly name: string;
    readonly boothId: string;
    readonly scenario: DenseScenario;
    readonly agent: Restarted;
  }[];
};

async function setUp(
  options: FaultOptions,
  folder: string,
  lengthMs: number,
  nowMs: () => number,
  closings: (() => Promise<void>)[],
): Promise<FaultBench> {
  const { top } = options;
  const port = await freePort();
  const dataFolder = join(folder, "dashboard");
  const place = { top, dataFolder, port };
  const first = startDashboard(place);
  closings.push(() => first.kill().then(() => undefined));
  const api = openApi(await addressOf(first));
  await makeOwner(api, await firstRunCode(first), { name: "Faults", password: "killed but never lost" });
  const names = Array.from({ length: options.agents }, (_, i) => `Fault ${String(i + 1)}`);
  const booking = aDayBooking({ openMin: -60, closeMin: 240, spareRolls: 900 });
  const day = aDay(names.map((name) => aDayBooth({ name, booking })));
  const made = await makeBooths(api, day, venueAt(nowMs()), nowMs());
  const proxy = await startCutProxy(port);
  closings.push(() => proxy.close());
  const places = made.map(({ booth }, i): AgentPlace => {
    return { top, name: booth.name, folder: join(folder, `agent-${String(i + 1)}`) };
  });
  const scenarios = names.map((name) => denseScenario(name, options.itemsASecond, lengthMs));
  for (const [i, agentPlace] of places.entries()) {
    const through = `http://127.0.0.1:${String(proxy.port)}`;
    layOutAgent(agentPlace, through, scenarios[i]?.lines ?? [], nowMs());
    await pairAgent(agentPlace, made[i]?.pairingCode ?? "");
  }
  await first.stop();
  const dashboard = startRestarted(() => startDashboard(place));
  closings.push(() => dashboard.stop());
  const booths = made.map(({ booth, boothId }, i) => {
    const agent = startRestarted(() => startAgent(places[i] as AgentPlace));
    closings.push(() => agent.stop());
    return { name: booth.name, boothId, scenario: scenarios[i] as DenseScenario, agent };
  });
  return { dataFolder, api, proxy, dashboard, booths };
}

async function playFaults(
  bench: FaultBench,
  plan: readonly Fault[],
  dice: Dice,
  say: (line: string) => void,
): Promise<FaultReport> {
  const report: FaultReport = {
    ...{ agentKills: 0, dashboardKills: 0, cuts: 0, cutConnections: 0, items: 0, stored: 0 },
    ...{ lost: [], doubled: [], foreign: [], miscounts: [] },
  };
  for (const [i, { waitMs, what }] of plan.entries()) {
    await new Promise((resolve) => setTimeout(resolve, waitMs));
    for (const program of [bench.dashboard, ...bench.booths.map(({ agent }) => agent)]) program.check();
    await doFault(bench, what, dice, report);
    if ((i + 1) % 10 === 0) say(`${String(i + 1)} of ${String(plan.length)} faults`);
  }
  return report;
}

async function doFault(
  bench: FaultBench,
  what: Fault["what"],
  dice: Dice,
  report: FaultReport,
): Promise<void> {
  if (what === "cut") {
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

/** Waits until everything has arrived, or no longer, and writes down what the store and the pages say. */
async function count({ booths, dataFolder, api, dashboard }: FaultBench, report: FaultReport): Promise<void> {
  const ledgers = () =>
    booths.map(({ boothId, scenario }) => readLedger(dataFolder, boothId, scenario.identities));
  const isIn = () => ledgers().every(({ lost }) => lost.length === 0);
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
  for (const ledger of ledgers()) {
    report.stored += ledger.stored;
    report.lost.push(...ledger.lost);
    report.doubled.push(...ledger.doubled);
    report.foreign.push(...ledger.foreign);
  }
}
