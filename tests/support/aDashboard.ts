import { randomBytes } from "node:crypto";
import { Writable } from "node:stream";
import type { Clock } from "@boothward/shared-types";
import { pino } from "pino";
import { v7 as makeId } from "uuid";
import { onTestFinished } from "vitest";
import * as z from "zod";
import { openDashboard, type Dashboard, type DashboardOptions } from "../../dashboard/openDashboard.ts";
import { openApi, type DashboardApi } from "../../seeds/dashboardApi.ts";
import { scratchFolder } from "./scratchFolder.ts";

/** A whole dashboard on a free port, quiet, with what a test wants to look at. */
export type ADashboard = Dashboard & {
  readonly dataDir: string;
  /** Everything it logged, one JSON line each. */
  readonly lines: readonly string[];
  /** Closes it and opens another on the same data, a new port and the same clock. */
  reopen(): Promise<ADashboard>;
};

/** Its real cost takes a third of a second a password. */
const quickCost = 2 ** 10;

const realClock: Clock = () => ({ wallMs: Date.now(), monoMs: performance.now() });

/** What a test calls stands on this machine. */
export const nearby: DashboardOptions["outside"] = {
  ...{ mayCallOwnNetwork: true, ownAddresses: () => [], trustedCa: null, mostMs: 5_000 },
};

/** Opens a dashboard that is closed when the test has finished. */
export async function aDashboard(over: Partial<DashboardOptions> = {}): Promise<ADashboard> {
  const { log, lines } = listeningLog();
  const dataDir = over.dataDir ?? scratchFolder();
  const dashboard = await openDashboard({
    ...{ dataDir, port: 0, host: "127.0.0.1", origin: null, tls: null, build: null, pagesDir: "none" },
    ...{ clock: realClock, log, randomBytes, makeId: () => makeId() },
    ...{ passwordCost: quickCost, mostFailedTries: 10, ticksByItself: false },
    ...{ dice: () => 0.5, outside: nearby },
    ...over,
  });
  let closing: Promise<void> | null = null;
  const close = () => (closing ??= dashboard.close());
  onTestFinished(close);
  const reopen = async () => {
    await close();
    return aDashboard({ ...over, dataDir });
  };
  return { ...dashboard, dataDir, lines, close, reopen };
}

/** A log that keeps its lines. */
export function listeningLog() {
  const lines: string[] = [];
  const stream = new Writable({
    write(line: Buffer, _encoding, done) {
      lines.push(line.toString("utf8"));
      done();
    },
  });
  return { log: pino({ level: "debug" }, stream), lines };
}

export const owner = { name: "Ama", password: "a long evening of prints" };

/** The HTTP side of a dashboard as its new owner, signed in. */
export async function anOwner(dashboard: Pick<Dashboard, "url" | "firstRunUrl">): Promise<DashboardApi> {
  const api = openApi(dashboard.url);
  const code = dashboard.firstRunUrl?.split("#code=")[1];
  await api.post("/api/first-run", { code, ...owner }, z.unknown());
  return api;
}

/** The HTTP side of a dashboard as its owner, signed in anew. */
export async function signIn(dashboard: Pick<Dashboard, "url">): Promise<DashboardApi> {
  const api = openApi(dashboard.url);
  await api.post("/api/sign-in", owner, z.unknown());
  return api;
}

/** Adds a booth; gives its id. */
export async function addBooth(api: DashboardApi, name = "Juniper"): Promise<string> {
  const body = { name, isTrailer: false, kitSheets: 400, limitC: 40, box: null };
  const { boothId } = await api.post("/api/booths", body, z.object({ boothId: z.string() }));
  return boothId;
}

/** Pairs an agent with a booth; gives its token. */
export async function pairAgent(api: DashboardApi, boothId: string, agentId = "agent-1"): Promise<string> {
  const path = `/api/booths/${boothId}/pairing-codes`;
  const { code } = await api.post(path, {}, z.object({ code: z.string() }));
  const asked = { code, agentId, hostName: "tablet" };
  const { token } = await openApi(api.origin).post("/api/pair", asked, z.object({ token: z.string() }));
  return token;
}
