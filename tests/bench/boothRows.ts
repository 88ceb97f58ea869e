import { mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { pairAgent, startAgent, type AgentPlace } from "../../seeds/programs.ts";
import { cupsBench, type CupsBench } from "../support/cupsBench.ts";
import { figuresOf, type BenchRow } from "./figures.ts";
import { openLivePage } from "./livePage.ts";
import { openBenchDashboard, type BenchDashboard } from "./surroundings.ts";

const prints = 20;
const idleS = 60;
/** Linux counts processor time in hundredths of a second (USER_HZ, proc(5)). */
const ticksPerS = 100;

/**
 * A real print queue, a real agent and a real dashboard: from `lp` to the page, and what the agent costs
 * the booth computer while nothing happens.
 */
export async function boothRows(top: string): Promise<BenchRow[]> {
  const cups = await cupsBench();
  const dashboard = await openBenchDashboard(top);
  try {
    const { boothId, code } = await dashboard.addBooth("Juniper");
    const place = await layOut(dashboard, cups);
    await pairAgent(place, code);
    const agent = startAgent(place);
    try {
      return [await lpToPage(dashboard, boothId, cups), ...(await idleCost(agent.pid))];
    } finally {
      await agent.stop();
    }
  } finally {
    await dashboard.close();
    await cups.close();
  }
}

async function layOut({ top, folder, api }: BenchDashboard, cups: CupsBench): Promise<AgentPlace> {
  const place = { top, name: "Juniper", folder: join(folder, "agent") };
  const layouts = join(folder, "layouts");
  await mkdir(place.folder, { recursive: true });
  await mkdir(layouts, { recursive: true });
  const sources = [{ kind: "ipp", uri: cups.uri }, { kind: "folder", path: layouts }, { kind: "host" }];
  const config = { dashboard: api.origin, dataFolder: join(place.folder, "data"), sources };
  await writeFile(join(place.folder, "agent.yaml"), JSON.stringify(config));
  return place;
}

async function lpToPage(dashboard: BenchDashboard, boothId: string, cups: CupsBench): Promise<BenchRow> {
  const page = await openLivePage(dashboard.api);
  await page.seen(boothId, (view) => view.printer?.state === "idle");
  const toBusyMs: number[] = [];
  const toCountMs: number[] = [];
  for (let print = 1; print <= prints; print++) {
    const sentAtMs = performance.now();
    const counted = page.seen(boothId, (view) => view.counts.pitches >= print);
    await cups.lp();
    toBusyMs.push(performance.now() - sentAtMs);
    toCountMs.push((await counted) - sentAtMs);
    // Prints at other phases of the agent's poll each time.
    await new Promise((resolve) => setTimeout(resolve, 600 + (print % 7) * 70));
  }
  page.close();
  const { p50, p95 } = figuresOf(toCountMs);
  return {
    what: "lp to page, one print counted",
    figure: `${Math.round(p50)} ms p50, ${Math.round(p95)} ms p95`,
    against: `at most 1500 ms; lp itself takes ${Math.round(figuresOf(toBusyMs).p50)} ms`,
  };
}

async function idleCost(pid: number): Promise<BenchRow[]> {
  const before = await ticksOf(pid);
  await new Promise((resolve) => setTimeout(resolve, idleS * 1_000));
  const shareOfCore = ((await ticksOf(pid)) - before) / ticksPerS / idleS;
  const status = await readFile(`/proc/${pid}/status`, "utf8");
  const residentMb = Number(/^VmRSS:\s+(\d+)/m.exec(status)?.[1]) / 1024;
  return [
    {
      what: `agent idle, ${idleS} s`,
      figure: `${(shareOfCore * 100).toFixed(2)} % of a core`,
      against: "under 1 %",
    },
    { what: "agent resident", figure: `${residentMb.toFixed(0)} MB`, against: "under 90 MB" },
  ];
}

/** User and system time of a process and of the children it has waited for, in ticks (proc(5), fields 14 to 17). */
async function ticksOf(pid: number): Promise<number> {
  const stat = await readFile(`/proc/${pid}/stat`, "utf8");
  const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
  return [11, 12, 13, 14].reduce((sum, at) => sum + Number(fields[at]), 0);
}
