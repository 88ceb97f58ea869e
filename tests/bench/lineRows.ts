import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { startProcess } from "../../seeds/startProcess.ts";
import { openAgentEnd, someReadings, type AgentEnd } from "./agentEnd.ts";
import { figuresOf, type BenchRow } from "./figures.ts";
import { openLivePage } from "./livePage.ts";
import { openBenchDashboard, pairOverHttp, type BenchDashboard } from "./surroundings.ts";

const agents = 4;
const itemsEach = 20_000;
const dayMs = 86_400_000;

/** How many items a second the line takes, against the least that any durable line must do, in one run. */
export async function throughputRows(top: string): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  for (const batchSize of [10, 100]) {
    const bare = await bareRun(top, batchSize);
    const ours = await ourRun(top, batchSize);
    rows.push({
      what: `line, ${agents} agents, batches of ${batchSize}`,
      figure: `${Math.round(ours.itemsPerS)} items/s, ack ${ours.ackP50Ms.toFixed(1)} ms p50`,
      against: `${(ours.itemsPerS / bare.itemsPerS).toFixed(2)} of the bare line's ${Math.round(bare.itemsPerS)} items/s`,
    });
  }
  return rows;
}

/** From an agent's send to a page's frame, through socket, schema, disk, state, rules and live socket. */
export async function readingToPageRow(top: string): Promise<BenchRow> {
  const dashboard = await openBenchDashboard(top);
  try {
    const { boothId, code } = await dashboard.addBooth("Juniper");
    const end = await openAgentEnd(
      linkUrl(dashboard),
      await pairOverHttp(dashboard.api, code, "agent"),
      "agent",
    );
    const page = await openLivePage(dashboard.api);
    const tookMs: number[] = [];
    for (let seq = 1; seq <= 200; seq++) {
      const [reading] = someReadings(seq, 1, Date.now() - seq * 1_000);
      if (reading === undefined) continue;
      const insideC = 20 + seq / 10;
      const sentAtMs = performance.now();
      void end.sendAll([{ ...reading, insideC }], 1);
      tookMs.push((await page.seen(boothId, (view) => view.inside?.insideC === insideC)) - sentAtMs);
      await new Promise((resolve) => setTimeout(resolve, 40));
    }
    page.close();
    end.close();
    const { p50, p95 } = figuresOf(tookMs);
    return {
      what: "reading to page",
      figure: `${p50.toFixed(1)} ms p50, ${p95.toFixed(1)} ms p95`,
      against: "at most 100 ms",
    };
  } finally {
    await dashboard.close();
  }
}

function linkUrl({ api }: BenchDashboard): string {
  return `${api.origin.replace("http", "ws")}/link`;
}

async function ourRun(top: string, batchSize: number) {
  const dashboard = await openBenchDashboard(top);
  try {
    const ends: AgentEnd[] = [];
    for (let at = 0; at < agents; at++) {
      const { code } = await dashboard.addBooth(`Booth ${at}`);
      const token = await pairOverHttp(dashboard.api, code, `agent-${at}`);
      ends.push(await openAgentEnd(linkUrl(dashboard), token, `agent-${at}`));
    }
    return await timed(ends, batchSize);
  } finally {
    await dashboard.close();
  }
}

async function bareRun(top: string, batchSize: number) {
  const folder = await mkdtemp(join(tmpdir(), "boothward-bare-"));
  const program = join(top, "tests/dist/bench.mjs");
  const running = startProcess({
    name: "bare line",
    command: process.execPath,
    args: [program, "bare-line", folder],
    cwd: top,
  });
  try {
    const [, port = ""] = await running.seeLine(/bare line at (\d+)/, 20_000);
    const ends: AgentEnd[] = [];
    for (let at = 0; at < agents; at++)
      ends.push(await openAgentEnd(`ws://127.0.0.1:${port}`, "none", `agent-${at}`, true));
    return await timed(ends, batchSize);
  } finally {
    await running.stop();
    await rm(folder, { recursive: true, force: true });
  }
}

/** All ends send the same number of readings of the last hours, at once. */
async function timed(ends: readonly AgentEnd[], batchSize: number) {
  const fromMs = performance.now();
  const beganAtMs = Date.now() - dayMs;
  const acks = await Promise.all(
    ends.map((end) => end.sendAll(someReadings(1, itemsEach, beganAtMs), batchSize)),
  );
  const seconds = (performance.now() - fromMs) / 1_000;
  for (const end of ends) end.close();
  return { itemsPerS: (ends.length * itemsEach) / seconds, ackP50Ms: figuresOf(acks.flat()).p50 };
}
