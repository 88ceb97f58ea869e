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

/** Where it is, once it listens. */
export async function listening(running: Running): Promise<string> {
  const [, url = ""] = await running.seeLine(/^Boothward is at (\S+)$/, mostStartMs);
  return url;
}

/** The same of a dashboard that has no owner yet, with the link that makes one. */
export async function firstListening(running: Running): Promise<Pick<Dashboard, "url" | "firstRunUrl">> {
  const url = await listening(running);
  const [, firstRunUrl = ""] = await running.seeLine(/ (\S+\/first-run#code=\S+)$/, mostStartMs);
  return { url, firstRunUrl };
}
