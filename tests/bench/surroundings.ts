import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import * as z from "zod";
import { openApi, type DashboardApi } from "../../seeds/dashboardApi.ts";
import { addressOf, firstRunCode, startDashboard } from "../../seeds/programs.ts";
import { makeOwner } from "../../seeds/setUpDay.ts";
import type { Running } from "../../seeds/startProcess.ts";

/** A real dashboard process with an owner, in a folder that goes when it is closed. */
export type BenchDashboard = {
  readonly top: string;
  readonly folder: string;
  readonly running: Running;
  readonly api: DashboardApi;
  /** Adds a booth that is open now; gives its id and the code that pairs its agent. */
  addBooth(name: string): Promise<{ boothId: string; code: string }>;
  close(): Promise<void>;
};

export async function openBenchDashboard(top: string): Promise<BenchDashboard> {
  const folder = await mkdtemp(join(tmpdir(), "boothward-bench-"));
  const running = startDashboard({ top, dataFolder: join(folder, "dashboard"), port: 0 });
  const api = openApi(await addressOf(running));
  await makeOwner(api, await firstRunCode(running), { name: "bench", password: "a long bench on the grass" });
  return {
    ...{ top, folder, running, api },
    async addBooth(name) {
      const body = { name, isTrailer: false, kitSheets: 400, limitC: 40 };
      const { boothId } = await api.post("/api/booths", body, z.object({ boothId: z.string() }));
      const nowMs = Date.now();
      await api.post("/api/bookings", { ...openBooking(nowMs), boothId }, z.unknown());
      const path = `/api/booths/${boothId}/pairing-codes`;
      const { code } = await api.post(path, {}, z.object({ code: z.string() }));
      return { boothId, code };
    },
    async close() {
      await running.stop();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function openBooking(nowMs: number) {
  const hourMs = 3_600_000;
  return {
    ...{ client: "Bench", place: "Bench", eventKind: "party", zone: "Etc/UTC", guests: 100 },
    ...{ latitudeDeg: null, longitudeDeg: null, attendant: null, spareRolls: 1, sheetsLoaded: 400 },
    ...{ openAtMs: nowMs - 6 * hourMs, closeAtMs: nowMs + 6 * hourMs },
  };
}

/** Pairs a made-up agent over HTTP; gives its token. */
export async function pairOverHttp(api: DashboardApi, code: string, agentId: string): Promise<string> {
  const asked = { code, agentId, hostName: "bench" };
  const { token } = await openApi(api.origin).post("/api/pair", asked, z.object({ token: z.string() }));
  return token;
}
