import { join } from "node:path";
import { type DashboardApi, openApi } from "../../seeds/dashboardApi.ts";
import {
  addressOf,
  type AgentPlace,
  firstRunCode,
  layOutAgent,
  pairAgent,
  startAgent,
  startDashboard,
} from "../../seeds/programs.ts";
import { makeBooths, makeOwner, type MadeBooth } from "../../seeds/setUpDay.ts";
import { venueAt } from "../../seeds/zone.ts";
import { aDay, aDayBooth, aDayBooking } from "../support/aDay.ts";
import { freePort } from "../support/freePort.ts";
import { type CutProxy, startCutProxy } from "./cutProxy.ts";
import { denseScenario, type DenseScenario } from "./denseScenario.ts";
import { type Restarted, startRestarted } from "./restarted.ts";

/** Real agents, a network of ours, and a real dashboard behind it. */
export type FaultBench = {
  readonly dataFolder: string;
  readonly api: DashboardApi;
  readonly proxy: CutProxy;
  readonly dashboard: Restarted;
  readonly booths: readonly FaultBooth[];
};

type FaultBooth = {
  readonly name: string;
  readonly boothId: string;
  readonly scenario: DenseScenario;
  readonly agent: Restarted;
};

export type FaultBenchOptions = {
  /** The project's folder, where the bundles are. */
  readonly top: string;
  /** Everything is written below it. */
  readonly folder: string;
  readonly agents: number;
  readonly itemsASecond: number;
  readonly lengthMs: number;
  readonly nowMs: () => number;
  /** What must be closed in the end, in the reverse order, also when this throws half way. */
  readonly closings: (() => Promise<void>)[];
};

/** Sets everything up over HTTP and starts it; the scenarios begin as their agents do. */
export async function startFaultBench(options: FaultBenchOptions): Promise<FaultBench> {
  const { top, folder, closings, nowMs } = options;
  const place = { top, dataFolder: join(folder, "dashboard"), port: await freePort() };
  const first = startDashboard(place);
  closings.push(() => first.kill().then(() => undefined));
  const api = openApi(await addressOf(first));
  await makeOwner(api, await firstRunCode(first), { name: "Faults", password: "killed but never lost" });
  const names = Array.from({ length: options.agents }, (_, i) => `Fault ${String(i + 1)}`);
  const booking = aDayBooking({ openMin: -60, closeMin: 240, spareRolls: 900 });
  const day = aDay(names.map((name) => aDayBooth({ name, booking })));
  const made = await makeBooths(api, day, venueAt(nowMs()), nowMs());
  const proxy = await startCutProxy(place.port);
  closings.push(() => proxy.close());
  const laidOut: Omit<FaultBooth, "agent">[] = [];
  for (const booth of made) laidOut.push(await layOut(options, booth, proxy));
  await first.stop();
  const dashboard = startRestarted(() => startDashboard(place));
  closings.push(() => dashboard.stop());
  const booths = laidOut.map((booth) => {
    const agent = startRestarted(() => startAgent(agentPlace(options, booth.name)));
    closings.push(() => agent.stop());
    return { ...booth, agent };
  });
  return { dataFolder: place.dataFolder, api, proxy, dashboard, booths };
}

/** Lays out and pairs one agent, through the network that will be cut. */
async function layOut(
  options: FaultBenchOptions,
  { booth: { name }, boothId, pairingCode }: MadeBooth,
  proxy: CutProxy,
): Promise<Omit<FaultBooth, "agent">> {
  const { itemsASecond, lengthMs, nowMs } = options;
  const scenario = denseScenario(name, itemsASecond, lengthMs);
  const place = agentPlace(options, name);
  layOutAgent(place, `http://127.0.0.1:${String(proxy.port)}`, scenario.lines, nowMs());
  await pairAgent(place, pairingCode);
  return { name, boothId, scenario };
}

function agentPlace({ top, folder }: FaultBenchOptions, name: string): AgentPlace {
  return { top, name, folder: join(folder, name.replace(" ", "-")) };
}
