import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { afterEach, expect, test } from "vitest";
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

const started: Running[] = [];
afterEach(async () => {
  for (const demo of started.splice(0)) await demo.stop();
});

function startDemo(): Running {
  const demo = startProcess({
    name: "demo",
    command: process.execPath,
    args: [join(top, "seeds/dist/play.mjs"), "--port", "0", "--seed", String(seed)],
    cwd: top,
  });
  started.push(demo);
  return demo;
}

/** Command lines of the running processes that name this folder, where the system lists them. */
function processesOf(folder: string): string[] {
  if (!existsSync("/proc/self/cmdline")) return [];
  return readdirSync("/proc").flatMap((entry) => {
    if (!/^\d+$/.test(entry)) return [];
    try {
      const words = readFileSync(join("/proc", entry, "cmdline"), "utf8").split("\0");
      return words.some((word) => word.startsWith(folder)) ? [words.join(" ")] : [];
    } catch {
      return [];
    }
  });
}

/** When the agent of a booth was told that its scenario began. */
function startedAtMs(folder: string, booth: string): number {
  const config: unknown = JSON.parse(readFileSync(join(folder, booth, "agent.yaml"), "utf8"));
  return (config as { scenario: { startedAtMs: number } }).scenario.startedAtMs;
}

test("the demo shows two hours of four booths counted to the sheet, and leaves nothing behind", async () => {
  const demo = startDemo();
  const [, folder = ""] = await demo.seeLine(/Its data lies in (\S+)/, 90_000);
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
    const beganAtMs = startedAtMs(folder, booth.name);
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

  if (process.platform === "linux") expect(processesOf(folder)).toHaveLength(5);
  expect(await demo.stop(30_000)).toEqual({ code: 0, signal: null });
  expect(processesOf(folder)).toEqual([]);
  expect(existsSync(folder)).toBe(false);
}, 240_000);

test("an option that is wrong is named, and nothing is started", async () => {
  const demo = startProcess({
    name: "demo",
    command: process.execPath,
    args: [join(top, "seeds/dist/play.mjs"), "--port", "eighty"],
    cwd: top,
  });
  expect((await demo.ended).code).toBe(1);
  expect(demo.lastLines(5).join("\n")).toMatch(/must be a number[^]*port/);
});
