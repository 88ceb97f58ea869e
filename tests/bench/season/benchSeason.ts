import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { parseArgs } from "node:util";
import * as z from "zod";
import { openApi, type DashboardApi } from "../../../seeds/dashboardApi.ts";
import { firstRunCode, startDashboard } from "../../../seeds/programs.ts";
import { makeOwner } from "../../../seeds/setUpDay.ts";
import type { Running } from "../../../seeds/startProcess.ts";
import { benchTable, type BenchRow } from "../figures.ts";
import { useOrMakeSeason, type Season, type SeasonSize } from "./seasonStore.ts";
import { timeRoutes, untilQuiet, type RouteTimes } from "./timeRoutes.ts";

/** Every page and report answers within this. */
const targetMs = 200;
const dayMs = 24 * 3_600_000;
const openWithinMs = 10 * 60_000;
const owner = { name: "bench", password: "a long bench on the grass" };

/**
 * `npm run bench -- season`: the data folder of a business after a season, a dashboard process on it, and how long
 * each address that pages and clients read takes to answer: the first time, in the middle, at worst. Also how long
 * the dashboard takes to open on it. `--events`, `--booths`, `--readings` make it smaller; `--folder` keeps it there,
 * and uses the one that is there.
 */
export async function benchSeason(top: string, args: readonly string[]): Promise<string> {
  const { values } = parseArgs({
    args: [...args],
    options: {
      events: { type: "string", default: "200" },
      booths: { type: "string", default: "4" },
      readings: { type: "string", default: "2000000" },
      times: { type: "string", default: "15" },
      folder: { type: "string" },
    },
  });
  const size = {
    ...{ events: Number(values.events), booths: Number(values.booths), readings: Number(values.readings) },
  };
  const folder = values.folder ?? (await mkdtemp(join(tmpdir(), "boothward-season-")));
  try {
    return await benchIn(folder, top, size, Number(values.times));
  } finally {
    if (values.folder === undefined) await rm(folder, { recursive: true, force: true });
  }
}

async function benchIn(folder: string, top: string, size: SeasonSize, times: number): Promise<string> {
  const made = await timed(() => useOrMakeSeason(folder, size, Date.now()));
  const season = made.result;
  const rows: BenchRow[] = [
    {
      what: "season made",
      figure: seconds(made.ms),
      against: `${season.bookings.length} bookings, ${season.facts} facts, ${season.readings} readings`,
    },
  ];
  const first = await timed(() => open(top, folder));
  rows.push({ what: "opened on it", figure: seconds(first.ms), against: "" });
  const { api, running } = first.result;
  try {
    const before = await history(api);
    const counted = await timed(() => allCounted(api));
    const against = `${before.waiting} evenings`;
    rows.push({ what: "reports counted in the background", figure: seconds(counted.ms), against });
    const quiet = await timed(() => untilQuiet(running.pid));
    rows.push({
      what: "earlier evenings and rolls read in the background",
      figure: seconds(quiet.ms),
      against: "",
    });
    const timed_ = await timeRoutes(api, running.pid, await pathsOf(api, season), times);
    return `${benchTable(rows)}\n${benchTable(timed_.map(rowOf))}`;
  } finally {
    await running.stop();
  }
}

async function timed<T>(work: () => Promise<T>): Promise<{ result: T; ms: number }> {
  const beganAtMs = performance.now();
  const result = await work();
  return { result, ms: performance.now() - beganAtMs };
}

async function open(top: string, folder: string): Promise<{ api: DashboardApi; running: Running }> {
  const running = startDashboard({ top, dataFolder: folder, port: 0 });
  const [, origin = ""] = await running.seeLine(/^Boothward is at (http:\/\/[^\s/]+)/, openWithinMs);
  const api = openApi(origin);
  const { isFirstRun } = await api.get("/api/me", whoAmI);
  if (isFirstRun) await makeOwner(api, await firstRunCode(running), owner);
  else await api.post("/api/sign-in", owner, z.unknown());
  return { api, running };
}

/** Asks as the page does, until no evening waits to be counted. */
async function allCounted(api: DashboardApi): Promise<void> {
  while ((await history(api)).waiting > 0) await new Promise((resolve) => setTimeout(resolve, 1_000));
}

const whoAmI = z.object({ isFirstRun: z.boolean() });
const counting = z.object({ waiting: z.number() });
const history = (api: DashboardApi) => api.get("/api/reports?fromAtMs=0&toAtMs=4000000000000", counting);

const madeLink = z.object({ path: z.string() });

/** Everything that pages, their files and clients' links read. */
async function pathsOf(api: DashboardApi, { boothIds, bookings }: Season): Promise<string[]> {
  const over = bookings.filter(({ closeAtMs }) => closeAtMs < Date.now() - dayMs);
  const ahead = bookings.filter(({ openAtMs }) => openAtMs > Date.now());
  const past = over[Math.floor(over.length / 2)]?.bookingId ?? "";
  const next = ahead[0]?.bookingId ?? "";
  const now = bookings.find(({ openAtMs, closeAtMs }) => openAtMs < Date.now() && closeAtMs > Date.now());
  const id = encodeURIComponent;
  const { path } = await api.post(`/api/bookings/${id(past)}/report-links`, {}, madeLink);
  const shared = `/api/shared-reports/${path.replace("/r/", "")}`;
  const yearAgo = Date.now() - 366 * dayMs;
  return [
    ...["/", "/api/me", "/api/booths", "/api/alerts", `/api/alerts?from=${Date.now() - 90 * dayMs}`],
    ...boothIds.slice(0, 1).map((boothId) => `/api/booths/${boothId}/evening`),
    ...["/api/bookings", "/api/bookings.csv", "/api/bookings.ics"],
    ...[past, now?.bookingId ?? "", next].flatMap((bookingId) =>
      ["plan", "checks"].map((part) => `/api/bookings/${id(bookingId)}/${part}`),
    ),
    `/api/bookings/${id(past)}/replay`,
    `/api/bookings/${id(past)}/report-links`,
    ...["/api/passes", "/api/reaches", "/api/reach-key", "/api/settings/notices", "/api/settings/business"],
    `/api/reports?fromAtMs=${yearAgo}&toAtMs=${Date.now() + dayMs}`,
    `/api/reports/${id(now?.bookingId ?? "")}`,
    ...["", "/report.pdf", "/report.csv", "/client.csv"].map((part) => `/api/reports/${id(past)}${part}`),
    ...["", "/report.pdf", "/report.csv"].map((part) => `${shared}${part}`),
    ...["/api/stock", "/api/stock/moves.csv?zone=Europe%2FBerlin"],
    `/api/stock/season-end?endAtMs=${Date.now() + 60 * dayMs}&shortCost=100&leftCost=60`,
  ];
}

function rowOf({ path, status, bytes, firstMs, medianMs, worstMs, workedMs }: RouteTimes): BenchRow {
  const times = [`${shown(medianMs)} median`, `${shown(worstMs)} worst`, `${shown(firstMs)} first`];
  const isSlow = worstMs > targetMs || firstMs > targetMs ? `OVER ${targetMs} ms, ` : "";
  const what = path.length > 60 ? `${path.slice(0, 57)}...` : path;
  const figure = `${times.join(", ")}, ${shown(workedMs)} worked`;
  return { what, figure, against: `${isSlow}${status}, ${Math.ceil(bytes / 1024)} kB` };
}

function shown(ms: number): string {
  return `${ms.toFixed(ms < 10 ? 1 : 0)} ms`;
}

function seconds(ms: number): string {
  return `${(ms / 1000).toFixed(1)} s`;
}
