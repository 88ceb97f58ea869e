import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { parseArgs } from "node:util";
import * as z from "zod";
import { gatherCrew } from "./crew.ts";
import { type Day, parseDay } from "./day.ts";
import fourBooths from "./days/fourBooths.json" with { type: "json" };
import { type Demo, startDemo } from "./demo.ts";
import { portOrFree } from "./programs.ts";
import type { Running } from "./startProcess.ts";
import { storyOf } from "./story.ts";

/** `npm run demo [-- --port N --keep --seed N]`: plays an invented event day on this computer until Ctrl-C. */
async function main(args: string[]): Promise<number> {
  const options = readOptions(args);
  const stopAsked = signalled(["SIGINT", "SIGTERM", "SIGHUP"]);
  const folder = await mkdtemp(join(tmpdir(), "boothward-demo-"));
  const crew = gatherCrew();
  try {
    const day = parseDay(fourBooths, "days/fourBooths.json");
    say("starting a dashboard and the agents of four booths ...");
    const place = { top: resolve(import.meta.dirname, "../.."), folder, day, seed: options.seed };
    const port = await portOrFree(options.port);
    const dashboardDied = new Promise<number>((resolveDeath) => {
      const onDeath = (running: Running, how: string): void => {
        sayDeath(running, how);
        if (running.name === "dashboard") resolveDeath(1);
      };
      startDemo({ ...place, port }, crew, Date.now, onDeath).then(
        (demo) => {
          sayReady(day, demo, folder, options.isKept);
        },
        (error: unknown) => {
          say(`not started: ${error instanceof Error ? error.message : String(error)}`);
          resolveDeath(1);
        },
      );
    });
    return await Promise.race([stopAsked, dashboardDied]);
  } finally {
    say("stopping ...");
    await crew.stop();
    if (options.isKept) say(`its data is kept in ${folder}`);
    else await rm(folder, { recursive: true, force: true });
  }
}

/** Any will do; with this one the advice of the first minutes is the plainest. */
const usualSeed = 2;

/** The usual port of a dashboard. */
const usualPort = 8460;

function readOptions(args: string[]): { port: number; seed: number; isKept: boolean } {
  const { values } = parseArgs({
    args,
    options: { port: { type: "string" }, seed: { type: "string" }, keep: { type: "boolean" } },
  });
  const whole = z.coerce.number("must be a number").int("must be whole").min(0);
  const read = z
    .object({ port: whole.max(65_535).default(usualPort), seed: whole.default(usualSeed) })
    .safeParse(values);
  if (!read.success) throw new Error(z.prettifyError(read.error));
  return { ...read.data, isKept: values.keep ?? false };
}

/** Resolves to 0 at the first of these signals. Later ones are swallowed: the stop is under way. */
function signalled(signals: readonly NodeJS.Signals[]): Promise<number> {
  return new Promise((resolveSignal) => {
    for (const signal of signals)
      process.on(signal, () => {
        resolveSignal(0);
      });
  });
}

function sayReady(day: Day, { origin, signInUrl, owner }: Demo, folder: string, isKept: boolean): void {
  const lines = [
    "",
    `${day.name}: booths, venues, people and counts are made up.`,
    "",
    `  Open   ${signInUrl}`,
    "         (signs you in; works once)",
    `  Later  ${origin}  as ${owner.name}, password ${owner.password}`,
    "",
    ...day.atOnce.map((sentence) => `  within  1 min  ${sentence}`),
    ...storyOf(day, 10).map((line) => `  ${line}`),
    "",
    `Its data lies in ${folder}`,
    isKept ? "Ctrl-C stops it and keeps its data." : "Ctrl-C stops it and removes its data.",
  ];
  process.stdout.write(lines.map((line) => `${line}\n`).join(""));
}

function sayDeath(running: Running, how: string): void {
  say(`the ${running.name} has ended (${how}); its last lines:\n  ${running.lastLines(12).join("\n  ")}`);
}

function say(line: string): void {
  process.stderr.write(`demo: ${line}\n`);
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  say(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
