import { once } from "node:events";
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { type AddressInfo, createServer } from "node:net";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import { anyAnswer, openApi } from "../../seeds/dashboardApi.ts";
import { parseDay } from "../../seeds/day.ts";
import fourBooths from "../../seeds/days/fourBooths.json" with { type: "json" };
import { nowOffsetMs } from "../../seeds/simulate.ts";
import { type Running, startProcess } from "../../seeds/startProcess.ts";
import { seeBooths } from "../support/seeBooths.ts";
import { countsDue, simulatedCounts } from "../support/simulatedCounts.ts";
import { until } from "../support/until.ts";

const top = resolve(import.meta.dirname, "../..");
const day = parseDay(fourBooths, "fourBooths.json");
const seed = 7;

let folder = "";
const started: Running[] = [];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "boothward-demo-test-"));
});
afterEach(async () => {
  for (const demo of started.splice(0)) await demo.stop();
  rmSync(folder, { recursive: true });
});

/** The demo as a process of its own, which makes its temporary folder in ours. */
function startDemo(...options: string[]): Running {
  const demo = startProcess({
    name: "demo",
    command: process.execPath,
    args: [join(top, "seeds/dist/play.mjs"), ...options],
    cwd: top,
    env: { TMPDIR: folder, TMP: folder, TEMP: folder },
  });
  started.push(demo);
  return demo;
}

/** The running processes whose command line names our folder, where the system lists them. */
function processesOfDemo(): { pid: number; words: string }[] {
  if (!existsSync("/proc/self/cmdline")) return [];
  return readdirSync("/proc").flatMap((entry) => {
    if (!/^\d+$/.test(entry)) return [];
    try {
      const words = readFileSync(join("/proc", entry, "cmdline"), "utf8").split("\0");
      const isOurs = words.some((word) => word.startsWith(folder));
      return isOurs ? [{ pid: Number(entry), words: words.join(" ") }] : [];
    } catch {
      // It ended while we looked.
      return [];
    }
  });
}

/** Nothing may be left: no process, no folder. */
function expectNothingLeft(): void {
  expect(processesOfDemo()).toEqual([]);
  expect(readdirSync(folder)).toEqual([]);
}

/** When the agent of a booth was told that its scenario began. */
function startedAtMs(dataFolder: string, booth: string): number {
  const config: unknown = JSON.parse(readFileSync(join(dataFolder, booth, "agent.yaml"), "utf8"));
  return (config as { scenario: { startedAtMs: number } }).scenario.startedAtMs;
}

test("the demo shows two hours of four booths counted to the sheet, and leaves nothing behind", async () => {
  const demo = startDemo("--port", "0", "--seed", String(seed));
  const [, dataFolder = ""] = await demo.seeLine(/Its data lies in (\S+)/, 90_000);
  const [, origin = "", token = ""] = await demo.seeLine(/(http:\S+)\/sign-in#once=(\S+)/, 90_000);
  const [, name = "", password = ""] = await demo.seeLine(/ as (.+), password (\S+)/, 90_000);

  const byLink = openApi(origin);
  await byLink.post("/api/sign-in-once", { token }, anyAnswer);
  await expect(openApi(origin).post("/api/sign-in-once", { token }, anyAnswer)).rejects.toThrow("410");
  const byPassword = openApi(origin);
  await byPassword.post("/api/sign-in", { name, password }, anyAnswer);
  await expect(seeBooths(openApi(origin))).rejects.toThrow();

  for (const booth of day.booths) {
    const steps = simulatedCounts(booth, day, seed);
    const beganAtMs = startedAtMs(dataFolder, booth.name);
    const atLeast = countsDue(steps, nowOffsetMs(day));
    expect(atLeast.sessions).toBeGreaterThan(25);
    const isCounted = async (): Promise<boolean> => {
      const seen = (await seeBooths(byLink)).find((one) => one.name === booth.name);
      // Whatever is due may still be on its way; in a quiet moment the two must be the same.
      const due = countsDue(steps, Date.now() - beganAtMs);
      return seen?.counts.sessions === due.sessions && seen.counts.pitches === due.pitches;
    };
    await until(isCounted, `${booth.name}'s counts are those of its simulated day`, 60_000);
  }
  const shown = await seeBooths(byPassword);
  expect(shown.map((booth) => booth.name).sort()).toEqual(["Juniper", "Marigold", "Sorrel", "Thistle"]);
  for (const booth of shown) {
    expect(booth.scenario).toBe(day.name);
    expect(booth.isLinked).toBe(true);
    expect(booth.keptAside).toBe(0);
    expect(booth.faults).toEqual([]);
    expect(booth.booking?.sunsetAtMs).toBeGreaterThan(Date.now());
  }

  if (process.platform === "linux") expect(processesOfDemo()).toHaveLength(5);
  expect(await demo.stop(30_000)).toEqual({ code: 0, signal: null });
  expectNothingLeft();
}, 240_000);

test("stopped while it starts, it leaves nothing behind either", async () => {
  const demo = startDemo("--port", "0");
  await until(() => readdirSync(folder).length > 0, "the demo's folder", 30_000);
  expect((await demo.stop(30_000)).signal).toBe(null);
  expectNothingLeft();
}, 120_000);

test("with its port taken it chooses another and says which", async () => {
  const other = createServer().listen(0, "127.0.0.1");
  await once(other, "listening");
  const taken = (other.address() as AddressInfo).port;
  const demo = startDemo("--port", String(taken));
  const [, port] = await demo.seeLine(/http:\/\/127\.0\.0\.1:(\d+)\/sign-in/, 90_000);
  expect(Number(port)).not.toBe(taken);
  await demo.stop(30_000);
  other.close();
}, 120_000);

// Which process is which is read from Linux's /proc.
test.runIf(process.platform === "linux")(
  "an agent that dies is told of and the rest goes on; with the dashboard the demo ends",
  async () => {
    const demo = startDemo("--port", "0", "--keep");
    await demo.seeLine(/Ctrl-C stops it/, 90_000);
    const killOne = (part: string): void => {
      const victim = processesOfDemo().find(({ words }) => words.includes(part));
      if (victim === undefined) throw new Error(`no process with ${part}`);
      process.kill(victim.pid, "SIGKILL");
    };
    killOne("Sorrel");
    await until(
      () => demo.lastLines(20).join("\n").includes("agent of Sorrel has ended (SIGKILL)"),
      "told of it",
    );
    expect(demo.isRunning()).toBe(true);
    killOne("dashboard.mjs");
    expect(await demo.ended).toEqual({ code: 1, signal: null });
    expect(demo.lastLines(40).join("\n")).toMatch(/the dashboard has ended \(SIGKILL\); its last lines:/);
    expect(processesOfDemo()).toEqual([]);
    expect(readdirSync(folder)).toHaveLength(1);
  },
  120_000,
);

test("an option that is wrong is named, and nothing is started", async () => {
  const demo = startDemo("--port", "eighty");
  expect((await demo.ended).code).toBe(1);
  expect(demo.lastLines(5).join("\n")).toMatch(/must be a number[^]*port/);
  expectNothingLeft();
});
