import { resolve } from "node:path";
import { onTestFinished } from "vitest";
import type { Dashboard } from "../../dashboard/openDashboard.ts";
import { startProcess, type Running } from "../../seeds/startProcess.ts";

const top = resolve(import.meta.dirname, "../..");

/** A starting machine under load may take its time; the limit only ends a hopeless wait. */
const mostStartMs = 60_000;

/** The built dashboard as a process of its own, stopped when the test has finished. */
export function startDashboard(...args: string[]): Running {
  const running = startProcess({
    name: "dashboard",
    command: process.execPath,
    args: [resolve(top, "dashboard/dist/dashboard.mjs"), ...args],
    cwd: top,
  });
  onTestFinished(() => void running.stop());
  return running;
}

/** Where it is and its first-run link, once it listens. */
export async function listening(running: Running): Promise<Pick<Dashboard, "url" | "firstRunUrl">> {
  const [, url = ""] = await running.seeLine(/^Boothward is at (\S+)$/, mostStartMs);
  const firstRun = running.lastLines(10).find((line) => line.includes("/first-run#code="));
  return { url, firstRunUrl: firstRun?.split(" ").at(-1) ?? null };
}
