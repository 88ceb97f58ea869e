import { performance } from "node:perf_hooks";
import type { DashboardApi } from "../../../seeds/dashboardApi.ts";

/** How long an address took, ms: the first time, and then. */
export type RouteTimes = {
  readonly path: string;
  readonly status: number;
  readonly bytes: number;
  readonly firstMs: number;
  readonly medianMs: number;
  readonly worstMs: number;
};

/** Asks each of them so often, one after the other. */
export async function timeRoutes(
  api: DashboardApi,
  paths: readonly string[],
  times: number,
): Promise<RouteTimes[]> {
  const rows: RouteTimes[] = [];
  for (const path of paths) rows.push(await timeRoute(api, path, times));
  return rows;
}

export async function timeRoute(api: DashboardApi, path: string, times: number): Promise<RouteTimes> {
  const tookMs: number[] = [];
  let status = 0;
  let bytes = 0;
  for (let time = 0; time < times; time++) {
    const beganAtMs = performance.now();
    const response = await fetch(new URL(path, api.origin), { headers: { cookie: api.cookie() } });
    bytes = (await response.arrayBuffer()).byteLength;
    tookMs.push(performance.now() - beganAtMs);
    status = response.status;
  }
  const [firstMs = 0] = tookMs;
  const sorted = tookMs.toSorted((a, b) => a - b);
  const medianMs = sorted[Math.floor(sorted.length / 2)] ?? 0;
  return { path, status, bytes, firstMs, medianMs, worstMs: sorted.at(-1) ?? 0 };
}
