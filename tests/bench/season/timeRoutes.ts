import { readFileSync } from "node:fs";
import { performance } from "node:perf_hooks";
import type { DashboardApi } from "../../../seeds/dashboardApi.ts";

/** How long an address took, ms. */
export type RouteTimes = {
  readonly path: string;
  readonly status: number;
  readonly bytes: number;
  readonly firstMs: number;
  readonly medianMs: number;
  readonly worstMs: number;
  /** What the dashboard worked for one answer, whatever else the computer did; its seconds' ticks with it. */
  readonly workedMs: number;
};

/** Linux counts processor time in hundredths of a second (USER_HZ, proc(5)). */
const tickMs = 10;

/** A second in which it works less than this is one of looking at its booths alone. */
const quietMs = 250;

/** Asks each of them so often, one after the other. */
export async function timeRoutes(
  api: DashboardApi,
  pid: number,
  paths: readonly string[],
  times: number,
): Promise<RouteTimes[]> {
  const rows: RouteTimes[] = [];
  for (const path of paths) {
    console.error(`bench: ${path}`);
    rows.push(await timeRoute(api, pid, path, times));
  }
  return rows;
}

async function timeRoute(api: DashboardApi, pid: number, path: string, times: number): Promise<RouteTimes> {
  const tookMs: number[] = [];
  let status = 0;
  let bytes = 0;
  const before = workedMs(pid);
  for (let time = 0; time < times; time++) {
    const beganAtMs = performance.now();
    const response = await fetch(new URL(path, api.origin), { headers: { cookie: api.cookie() } });
    bytes = (await response.arrayBuffer()).byteLength;
    tookMs.push(performance.now() - beganAtMs);
    status = response.status;
  }
  const [firstMs = 0, ...later] = tookMs;
  const sorted = later.sort((a, b) => a - b);
  return {
    ...{ path, status, bytes, firstMs, medianMs: sorted[Math.floor(sorted.length / 2)] ?? firstMs },
    ...{ worstMs: sorted.at(-1) ?? firstMs, workedMs: (workedMs(pid) - before) / times },
  };
}

/** Resolves when the dashboard does nothing in the background any more, or has not become quiet within ten minutes. */
export async function untilQuiet(pid: number): Promise<void> {
  for (let second = 0; second < 600; second++) {
    const before = workedMs(pid);
    await new Promise((resolve) => setTimeout(resolve, 1_000));
    if (workedMs(pid) - before < quietMs) return;
  }
}

/** User and system time of a process, ms (proc(5), fields 14 and 15). */
function workedMs(pid: number): number {
  const stat = readFileSync(`/proc/${pid}/stat`, "utf8");
  const fields = stat.slice(stat.lastIndexOf(")") + 2).split(" ");
  return (Number(fields[11]) + Number(fields[12])) * tickMs;
}
