import { once } from "node:events";
import { writeFileSync } from "node:fs";
import { mkdtemp, rm } from "node:fs/promises";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { randomBytes } from "node:crypto";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { pino } from "pino";
import { v7 as makeId } from "uuid";
import * as z from "zod";
import { readConfig } from "../../../agent/config.ts";
import { readAgentId, writeCredentials } from "../../../agent/identity.ts";
import { pairAgent } from "../../../agent/pair.ts";
import { runAgent } from "../../../agent/runAgent.ts";
import { openDashboard } from "../../../dashboard/openDashboard.ts";
import { anyAnswer, openApi, type DashboardApi } from "../../../seeds/dashboardApi.ts";
import { scenarioText, type ScenarioLine } from "../../../seeds/scenarioLine.ts";
import { makeOwner } from "../../../seeds/setUpDay.ts";
import { handTime } from "../../support/handTime.ts";
import { minuteMs, type Evening } from "./evening.ts";
import { watchedSocket, type Flow } from "./watchedSocket.ts";

/** What came in at a person's webhook. */
export type Heard = {
  readonly noticeId: string;
  readonly role: "owner" | "attendant";
  readonly atMs: number;
};

/** A whole dashboard, its owner and attendant with a webhook each, and a whole agent: all on one clock moved by hand. */
export type AgentHouse = {
  readonly nowMs: () => number;
  readonly flow: Flow;
  readonly heard: readonly Heard[];
  /** Time goes by at both ends; what was due is done by the agent's own timers. */
  pass(ms: number): void;
  /** The dashboard looks at its booths, and sends what is due. */
  tick(): Promise<void>;
  /** The attendant's button. */
  take(alertId: string): Promise<void>;
  readonly rows: <T>(sql: string, row: z.ZodType<T>) => T[];
  close(): Promise<void>;
};

const hourMs = 60 * minuteMs;
const eveningsBehind = 3;
const owner = { name: "Ama Quill", password: "a long evening of prints" };

const idOf = (field: string) => z.object({ [field]: z.string() }).transform((found) => found[field] ?? "");

/** Opens all of it an hour before the evening begins, on a computer of its own folder, with nothing sent anywhere else. */
export async function openAgentHouse(evening: Evening, lines: readonly ScenarioLine[]): Promise<AgentHouse> {
  const time = handTime(evening.startAtMs - hourMs);
  const nowMs = () => time.clock().wallMs;
  const folder = await mkdtemp(join(tmpdir(), "boothward-evening-"));
  const heard: Heard[] = [];
  const office = await openOffice((noticeId, role) => heard.push({ noticeId, role, atMs: nowMs() }));
  const quiet = pino({ level: "silent" });
  const dashboard = await openDashboard({
    ...{
      dataDir: join(folder, "dashboard"),
      port: 0,
      host: "127.0.0.1",
      origin: null,
      tls: null,
      build: null,
    },
    ...{ pagesDir: "none", clock: time.clock, log: quiet, randomBytes, makeId: () => makeId() },
    ...{ passwordCost: 2 ** 10, mostFailedTries: 10, ticksByItself: false, dice: () => 0.5 },
    outside: { mayCallOwnNetwork: true, ownAddresses: () => [], trustedCa: null, mostMs: 5_000 },
  });
  const database = new Database(join(folder, "dashboard", "boothward.db"));
  const api = openApi(dashboard.url);
  await makeOwner(api, dashboard.firstRunUrl?.split("#code=")[1] ?? "", owner);
  await putEveningsBehind(api, evening);
  const { name, isTrailer, kitSheets, limitC, box } = evening.settings;
  const boothId = await api.post("/api/booths", { name, isTrailer, kitSheets, limitC, box }, idOf("boothId"));
  const bookingId = await api.post("/api/bookings", { ...evening.booking, boothId }, idOf("bookingId"));
  const reach = { way: "webhook", label: "office", body: { url: `${office.url}/owner` } };
  await api.post("/api/reaches", reach, anyAnswer);
  const attendant = await enterAttendant(api, bookingId);
  hookAttendant(database, { passId: attendant.passId, url: `${office.url}/attendant`, atMs: nowMs() });
  // Time until the agents begin.
  time.pass(hourMs);
  await dashboard.tick();

  const flow: Flow = { ackedSeq: 0, unansweredBeats: 0, isLinked: false };
  const file = join(folder, "evening.jsonl");
  writeFileSync(file, scenarioText(lines));
  const config = readConfig(
    join(folder, "agent.yaml"),
    JSON.stringify({ dataFolder: "agent", scenario: { file, startedAtMs: evening.startAtMs } }),
  );
  const { code } = await api.post(`/api/booths/${boothId}/pairing-codes`, {}, z.object({ code: z.string() }));
  const agentId = readAgentId(config.dataFolder, makeId);
  const paired = await pairAgent({ dashboard: dashboard.url, code, agentId, hostName: "tablet", fetch });
  if (paired.kind === "refused") throw new Error(paired.sentence);
  writeCredentials(config.dataFolder, paired.credentials);
  const agent = await runAgent({
    ...{ config, clock: time.clock, dice: () => 0.5, newId: () => makeId(), after: time.after, log: quiet },
    ...{ openSocket: watchedSocket(flow), hostName: "tablet", platform: "linux", onStatus: () => undefined },
  });
  return {
    ...{ nowMs, flow, heard, pass: (ms: number) => time.pass(ms) },
    async tick() {
      await dashboard.tick();
      await dashboard.settled();
    },
    take: (alertId) =>
      attendant.api
        .post(`/api/alerts/${alertId}/say`, { answer: "take", sayId: makeId() }, anyAnswer)
        .then(() => undefined),
    rows: (sql, row) => z.array(row).parse(database.prepare(sql).all()),
    async close() {
      await agent.stop();
      await dashboard.close();
      database.close();
      office.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** An HTTP server that takes what people are told. */
async function openOffice(onNotice: (noticeId: string, role: Heard["role"]) => void) {
  const call = z.object({ data: z.object({ noticeId: z.string() }) });
  const server = createServer((request, response) => {
    const parts: Buffer[] = [];
    request.on("data", (part: Buffer) => parts.push(part));
    request.on("end", () => {
      const { data } = call.parse(JSON.parse(Buffer.concat(parts).toString()));
      onNotice(data.noticeId, request.url === "/owner" ? "owner" : "attendant");
      response.writeHead(204).end();
    });
  });
  await once(server.listen(0, "127.0.0.1"), "listening");
  const close = () => {
    server.closeAllConnections();
    server.close();
  };
  return { url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`, close };
}

/** Another booth's events, over weeks ago: forecasts may say "now" from the fourth event on. */
async function putEveningsBehind(
  api: DashboardApi,
  { booking, startAtMs, settings }: Evening,
): Promise<void> {
  const { isTrailer, kitSheets, limitC, box } = settings;
  const other = { name: "Elder", isTrailer, kitSheets, limitC, box };
  const boothId = await api.post("/api/booths", other, idOf("boothId"));
  for (let back = 1; back <= eveningsBehind; back += 1) {
    const openAtMs = startAtMs - back * 7 * 24 * hourMs;
    const past = { ...booking, boothId, openAtMs, closeAtMs: openAtMs + hourMs };
    await api.post("/api/bookings", past, anyAnswer);
  }
}

async function enterAttendant(api: DashboardApi, bookingId: string) {
  const made = z.object({ passId: z.string(), path: z.string() });
  const { passId, path } = await api.post(
    "/api/passes",
    { name: "Ama Quill", bookingIds: [bookingId] },
    made,
  );
  const own = openApi(api.origin);
  await own.post("/api/join", { token: path.split("#pass=")[1] }, anyAnswer);
  return { api: own, passId };
}

/** Attendants may not name a webhook of their own by the pages; it stands here for their phone's push. */
function hookAttendant(
  database: Database.Database,
  { passId, url, atMs }: { readonly passId: string; readonly url: string; readonly atMs: number },
): void {
  const body = JSON.stringify({ url, secret: `whsec_${Buffer.alloc(24, 7).toString("base64")}` });
  database
    .prepare(
      `insert into reach ("reachId", "way", "passId", "label", "body", "createdAtMs")
       values ('attendant', 'webhook', ?, 'phone', ?, ?)`,
    )
    .run(passId, body, atMs);
}
