import { readFileSync, statSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { once } from "node:events";
import type { AddressInfo } from "node:net";
import { join, resolve } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import * as z from "zod";
import type { DashboardApi } from "../../../seeds/dashboardApi.ts";
import { type Running, startProcess } from "../../../seeds/startProcess.ts";
import { type ADashboard, aDashboard, addBooth, anOwner } from "../../support/aDashboard.ts";
import { freePort } from "../../support/freePort.ts";
import { readStore, storedItems } from "../../support/readStore.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { until } from "../../support/until.ts";

const bundle = resolve(import.meta.dirname, "../../../agent/dist/agent.mjs");
const line = 20_000;

/** Starts the agent's bundle with plain node, as it is shipped. */
function agent(folder: string, ...args: string[]): Running {
  const running = startProcess({
    name: `agent ${args[0]}`,
    command: process.execPath,
    args: [bundle, ...args],
    cwd: folder,
  });
  onTestFinished(async () => void (await running.kill()));
  return running;
}

/** How a command ended, and all it said. */
async function ended(running: Running): Promise<{ code: number | null; said: string }> {
  const { code } = await running.ended;
  return { code, said: running.lastLines(50).join("\n") };
}

/** A folder with a configuration file, the settings given as YAML (JSON is YAML too). */
function aPlace(settings: object): string {
  const folder = scratchFolder();
  writeFileSync(join(folder, "agent.yaml"), JSON.stringify({ dataFolder: "data", ...settings }));
  return folder;
}

const run = (folder: string) => agent(folder, "run", "--config", "agent.yaml");
const pair = (folder: string, code: string, ...more: string[]) =>
  ended(agent(folder, "pair", "--config", "agent.yaml", "--code", ...code.split(" "), ...more));

async function pairingCode(api: DashboardApi, boothId: string): Promise<string> {
  const made = await api.post(`/api/booths/${boothId}/pairing-codes`, {}, z.object({ code: z.string() }));
  return made.code;
}

/** A dashboard with a booth, and a place whose agent is paired with it. */
async function aPairedPlace(settings: object = {}) {
  const dashboard = await aDashboard();
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api, "Willow");
  const folder = aPlace({ dashboard: dashboard.url, ...settings });
  const paired = await pair(folder, await pairingCode(api, boothId));
  return { dashboard, api, boothId, folder, paired };
}

const kinds = (dashboard: ADashboard) => storedItems(dashboard.dataDir).map(({ kind }) => kind);

describe("agent pair", () => {
  it("trades a code for a token that only its user can read, and says who it is now", async () => {
    const { dashboard, folder, paired } = await aPairedPlace();
    expect(paired).toEqual({
      code: 0,
      said: `Paired: this computer is now the agent of Willow at ${dashboard.url}.`,
    });
    const path = join(folder, "data/credentials.json");
    if (process.platform !== "win32") expect(statSync(path).mode & 0o777).toBe(0o600);
    const { token } = z.object({ token: z.string() }).parse(JSON.parse(readFileSync(path, "utf8")));
    expect(dashboard.lines.join("")).not.toContain(token);
  });

  it("says in a sentence that a code is wrong, and that one was used", async () => {
    const { api, boothId, folder } = await aPairedPlace();
    const code = await pairingCode(api, boothId);
    expect((await pair(folder, code)).code).toBe(0);
    const used = await pair(folder, code);
    expect(used.code).toBe(1);
    expect(used.said).toContain("used already");
    const wrong = await pair(folder, "QQQ QQQ");
    expect(wrong.code).toBe(1);
    expect(wrong.said).toContain("not known");
  });

  it("says that a dashboard cannot be reached", async () => {
    const dashboard = `http://127.0.0.1:${await freePort()}`;
    const { code, said } = await pair(aPlace({ dashboard }), "QQQ QQQ");
    expect(code).toBe(1);
    expect(said).toBe(
      `The dashboard at ${dashboard} cannot be reached (ECONNREFUSED). Is the address right, and is it running?`,
    );
  });

  it("says that what answers is no dashboard", async () => {
    const server = createServer((_, response) => response.end("hello")).listen(0, "127.0.0.1");
    await once(server, "listening");
    onTestFinished(() => void server.close());
    const dashboard = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
    const { said } = await pair(aPlace({}), "QQQ QQQ", "--dashboard", dashboard);
    expect(said).toBe(`What answers at ${dashboard} is not a Boothward dashboard (HTTP status 200).`);
  });

  it("asks for what is missing, and refuses two different dashboards", async () => {
    expect((await pair(aPlace({}), "QQQ QQQ")).said).toContain("--dashboard is missing");
    const place = aPlace({ dashboard: "http://one.example" });
    const both = await pair(place, "QQQ QQQ", "--dashboard", "http://two.example");
    expect(both.said).toContain("names the dashboard http://one.example, not http://two.example");
    expect((await ended(agent(place, "pair", "--config", "agent.yaml"))).said).toContain("--code is missing");
  });
});

describe("agent run", () => {
  it("links to a real dashboard, brings its items over, stops cleanly, and logs no token", async () => {
    const { dashboard, folder } = await aPairedPlace({ sources: [{ kind: "host" }] });
    const running = run(folder);
    await running.seeLine(/^Linked as Willow\.$/, line);
    await until(() => kinds(dashboard).includes("host"), "a reading of the host is stored");
    expect(kinds(dashboard)).toContain("agentStarted");
    expect(await running.stop()).toEqual({ code: 0, signal: null });
    const { token } = z
      .object({ token: z.string() })
      .parse(JSON.parse(readFileSync(join(folder, "data/credentials.json"), "utf8")));
    expect(running.lastLines(200).join("\n")).not.toContain(token);
  });

  it("refuses a data folder that another agent is using, and takes it over when that one was killed", async () => {
    const { folder } = await aPairedPlace();
    const first = run(folder);
    await first.seeLine(/^Linked/, line);
    const second = await ended(run(folder));
    expect(second.code).toBe(1);
    expect(second.said).toContain(`Another agent (process ${first.pid}) is using the data folder`);
    await first.kill();
    await run(folder).seeLine(/^Linked/, line);
  });

  it("[L1] runs unpaired, keeps what it sees, says how to pair it, and links when that is done", async () => {
    const dashboard = await aDashboard();
    const api = await anOwner(dashboard);
    const boothId = await addBooth(api, "Willow");
    const folder = aPlace({ dashboard: dashboard.url });
    const running = run(folder);
    await running.seeLine(/^This agent is not paired with .* agent pair --config FILE/, line);
    await pair(folder, await pairingCode(api, boothId));
    await running.seeLine(/^Linked as Willow\.$/, line);
    await until(() => kinds(dashboard).includes("agentStarted"), "what it kept is stored");
  });

  it("[L6] says that it was revoked, and runs on", async () => {
    const { api, folder } = await aPairedPlace();
    const running = run(folder);
    await running.seeLine(/^Linked/, line);
    const list = z.object({ booths: z.array(z.object({ agent: z.object({ agentId: z.string() }) })) });
    const agentId = (await api.get("/api/booths", list)).booths[0]?.agent.agentId;
    await api.post(`/api/agents/${agentId}/revoke`, {}, z.unknown());
    await running.seeLine(/has revoked this agent; it asks again every 5 minutes/, line);
    expect(running.isRunning()).toBe(true);
  });

  it("[I5] plays a scenario over three kills without losing or doubling a print", async () => {
    const prints = 400;
    const header = { scenario: "A windy evening", lengthMs: prints * 20 };
    const item = { class: "fact", kind: "print", copies: 1, pitches: 1, queue: null };
    const lines = Array.from({ length: prints }, (_, i) => ({ atMs: i * 20, item }));
    const file = join(scratchFolder(), "windy.ndjson");
    writeFileSync(file, [header, ...lines].map((one) => JSON.stringify(one)).join("\n"));
    const { dashboard, folder } = await aPairedPlace({ scenario: { file, startedAtMs: Date.now() } });
    const counted = () => kinds(dashboard).filter((kind) => kind === "print").length;
    for (const share of [0.2, 0.4, 0.6]) {
      const running = run(folder);
      await until(() => counted() >= share * prints, `${share} of the prints are stored`);
      await running.kill();
    }
    run(folder);
    await until(() => counted() >= prints, "all prints are stored");
    const rows = readStore(
      dashboard.dataDir,
      `select count(*) as rows, count(distinct json_extract(body, '$.printId')) as ids from fact where kind = 'print'`,
      z.object({ rows: z.number(), ids: z.number() }),
    );
    expect(rows).toEqual([{ rows: prints, ids: prints }]);
  }, 90_000);

  it.each([
    [{ sources: [{ kind: "host", everyMs: "fast" }] }, 'sources[0].everyMs: must be a number, got "fast"'],
    [{ scenario: { file: "none.ndjson", startedAtMs: 0 } }, "none.ndjson: there is no such file"],
  ])("says in one line what is wrong with %j, and ends", async (settings, words) => {
    const { code, said } = await ended(run(aPlace(settings)));
    expect(code).toBe(1);
    expect(said).toContain(words);
    expect(said.split("\n")).toHaveLength(1);
  });

  it("says what is wrong with a command line", async () => {
    const folder = aPlace({});
    expect((await ended(agent(folder, "walk"))).said).toContain('There is no command "walk"');
    expect((await ended(agent(folder, "run"))).said).toContain("--config is missing");
    expect((await ended(agent(folder, "run", "--config", "none.yaml"))).said).toBe(
      "There is no file none.yaml.",
    );
    expect((await ended(agent(folder, "run", "--confg", "x"))).said).toContain("--confg");
  });
});

describe("agent survey", () => {
  it("says what can be seen on this computer, and ends", async () => {
    const { code, said } = await ended(agent(scratchFolder(), "survey"));
    expect(code).toBe(0);
    expect(said).toMatch(/^[+-] .*\.$/m);
  });
});
