import "./leanMemory.ts";
import { existsSync, readFileSync } from "node:fs";
import { arch, hostname, platform, release } from "node:os";
import { parseArgs } from "node:util";
import { v7 as newId } from "uuid";
import { type AgentConfig, readConfig } from "./config.ts";
import { readAgentId, writeCredentials } from "./identity.ts";
import { webSocketLink } from "./link/webSocketLink.ts";
import { lockFolder } from "./lockFolder.ts";
import { openLog } from "./log.ts";
import { pairAgent } from "./pair.ts";
import { runAgent } from "./runAgent.ts";
import { survey } from "./survey.ts";
import { agentVersion } from "./version.ts";

const usage = `Boothward agent ${agentVersion}

  agent run --config FILE
      watch this booth and tell the dashboard
  agent survey
      say what can be seen on this computer
  agent pair --config FILE [--dashboard URL] --code CODE
      sign this agent in, once
`;

/** A mistake of the person at the keyboard: the sentence alone is shown. */
class Mistake extends Error {}

const say = (line: string): void => void process.stdout.write(`${line}\n`);

async function main(args: string[]): Promise<void> {
  const [command, ...rest] = args;
  switch (command) {
    case "run":
      return run(rest);
    case "survey":
      return say(await survey());
    case "pair":
      return pair(rest);
    case "help":
    case "--help":
      return say(usage);
    default:
      throw new Mistake(command === undefined ? usage : `There is no command "${command}".\n\n${usage}`);
  }
}

async function run(args: string[]): Promise<void> {
  const { values } = parseArgs({ args, options: { config: { type: "string" } } });
  const config = loadConfig(values.config);
  const unlock = lockFolder(config.dataFolder);
  process.once("exit", unlock);
  const log = await openLog(config.log);
  const agent = await runAgent({
    config,
    clock: () => ({ wallMs: Date.now(), monoMs: performance.now() }),
    dice: Math.random,
    newId,
    after: (ms, callBack) => {
      const timer = setTimeout(callBack, ms);
      return () => clearTimeout(timer);
    },
    openSocket: webSocketLink,
    hostName: hostname(),
    platform: `${platform()} ${release()} ${arch()}`,
    log,
    onStatus: ({ sentence }) => say(sentence),
  });
  say(`Boothward agent ${agentVersion} runs; it keeps what it sees in ${config.dataFolder}.`);
  const stop = (signal: string) => {
    log.info({ signal }, "the agent stops");
    agent
      .stop()
      .catch((error: unknown) => log.error({ error: String(error) }, "the agent did not stop cleanly"))
      .finally(() => process.exit(0));
  };
  // The last two are what Windows says when its console is closed, and for Ctrl-Break.
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK"] as const) process.once(signal, stop);
}

async function pair(args: string[]): Promise<void> {
  const { values, positionals } = parseArgs({
    args,
    // A code is shown in two halves, and may be typed as two words.
    allowPositionals: true,
    options: { config: { type: "string" }, dashboard: { type: "string" }, code: { type: "string" } },
  });
  const config = loadConfig(values.config);
  const dashboard = dashboardFor(config, values.dashboard);
  if (values.code === undefined) throw new Mistake("--code is missing: the code that the dashboard shows.");
  const agentId = readAgentId(config.dataFolder, newId);
  const code = [values.code, ...positionals].join(" ");
  const paired = await pairAgent({ dashboard, code, agentId, hostName: hostname(), fetch });
  if (paired.kind === "refused") throw new Mistake(paired.sentence);
  writeCredentials(config.dataFolder, paired.credentials);
  say(`Paired: this computer is now the agent of ${paired.credentials.boothName} at ${dashboard}.`);
}

function loadConfig(file: string | undefined): AgentConfig {
  if (file === undefined) throw new Mistake("--config is missing: the agent's configuration file.");
  if (!existsSync(file)) throw new Mistake(`There is no file ${file}.`);
  return readConfig(file, readFileSync(file, "utf8"));
}

function dashboardFor(config: AgentConfig, given: string | undefined): string {
  const dashboard = given ?? config.dashboard;
  if (dashboard === undefined)
    throw new Mistake("--dashboard is missing: the address of the dashboard, for example https://HOST");
  if (!URL.canParse(dashboard) || !/^https?:/.test(dashboard))
    throw new Mistake(`--dashboard must be an http or https address, got "${dashboard}"`);
  if (config.dashboard !== undefined && new URL(config.dashboard).href !== new URL(dashboard).href)
    throw new Mistake(
      `The configuration names the dashboard ${config.dashboard}, not ${dashboard}: make them the same first.`,
    );
  return dashboard;
}

/** Errors that a person can do something about are shown as their sentence, any other one whole. */
function show(error: unknown): void {
  const isForPerson =
    error instanceof Mistake ||
    (error instanceof Error &&
      (["ConfigError", "FolderInUse", "ScenarioError"].includes(error.name) ||
        ("code" in error && String(error.code).startsWith("ERR_PARSE_ARGS"))));
  process.stderr.write(
    `${isForPerson ? error.message : error instanceof Error ? error.stack : String(error)}\n`,
  );
}

// Whoever read our lines may be gone; that is no reason to stop watching a booth.
process.stdout.on("error", () => undefined);

main(process.argv.slice(2)).catch((error: unknown) => {
  show(error);
  process.exit(1);
});
