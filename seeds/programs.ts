import { mkdirSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { join } from "node:path";
import { scenarioText, type ScenarioLine } from "./scenarioLine.ts";
import { type Running, startProcess } from "./startProcess.ts";

/** How long a program may take to say that it is ready, ms: two slow cores with all agents starting. */
const readyWithinMs = 30_000;

export type DashboardPlace = {
  /** The project's folder, where the bundles are. */
  readonly top: string;
  readonly dataFolder: string;
  readonly port: number;
};

/** Starts the dashboard's bundle. */
export function startDashboard({ top, dataFolder, port }: DashboardPlace): Running {
  return startProcess({
    name: "dashboard",
    command: process.execPath,
    args: [
      "--enable-source-maps",
      join(top, "dashboard/dist/dashboard.mjs"),
      ...["run", "--data", dataFolder, "--port", String(port), "--host", "127.0.0.1"],
    ],
    cwd: top,
    isDetached: true,
  });
}

/** Waits until a dashboard listens; returns its address. Throws with its last lines if it does not. */
export async function addressOf(dashboard: Running): Promise<string> {
  const [, origin = ""] = await dashboard.seeLine(/^Boothward is at (http:\/\/[^\s/]+)/, readyWithinMs);
  return origin;
}

/** The code in the first-run link that a dashboard prints while it has no owner. */
export async function firstRunCode(dashboard: Running): Promise<string> {
  const [, code = ""] = await dashboard.seeLine(/\/first-run#code=(\S+)/, readyWithinMs);
  return code;
}

/** A booth computer of our own: a folder with a config file, a scenario and the agent's data. */
export type AgentPlace = {
  readonly top: string;
  readonly name: string;
  readonly folder: string;
};

/** Lays out the agent's folder: its config, and the scenario it plays from an instant on. */
export function layOutAgent(
  place: AgentPlace,
  dashboardUrl: string,
  lines: readonly ScenarioLine[],
  startedAtMs: number,
): void {
  mkdirSync(place.folder, { recursive: true });
  const scenarioFile = join(place.folder, "scenario.jsonl");
  writeFileSync(scenarioFile, scenarioText(lines));
  // JSON is YAML too.
  const config = {
    dashboard: dashboardUrl,
    dataFolder: join(place.folder, "data"),
    scenario: { file: scenarioFile, startedAtMs },
  };
  writeFileSync(configFile(place), `${JSON.stringify(config, null, 2)}\n`);
}

/** How a process is started: a crew keeps hold of it. */
export type Launch = (start: () => Running) => Running;

/** Pairs the agent with the booth that the code was made for; throws with what it said if it was refused. */
export async function pairAgent(
  place: AgentPlace,
  code: string,
  launch: Launch = (start) => start(),
): Promise<void> {
  const running = launch(() => startAgentCommand(place, "pair", ["--code", code]));
  const { code: exitCode } = await running.ended;
  if (exitCode !== 0)
    throw new Error(
      `${place.name} could not be paired; the agent said:\n  ${running.lastLines(10).join("\n  ")}`,
    );
}

/** Starts the agent. */
export function startAgent(place: AgentPlace): Running {
  return startAgentCommand(place, "run", []);
}

function startAgentCommand(place: AgentPlace, command: "run" | "pair", options: readonly string[]): Running {
  return startProcess({
    name: `agent of ${place.name}`,
    command: process.execPath,
    args: [
      "--enable-source-maps",
      join(place.top, "agent/dist/agent.mjs"),
      ...[command, "--config", configFile(place), ...options],
    ],
    cwd: place.folder,
    isDetached: true,
  });
}

function configFile({ folder }: AgentPlace): string {
  return join(folder, "agent.yaml");
}

/** The wanted port if nobody has it, else one that the system chooses. */
export async function portOrFree(wanted: number): Promise<number> {
  return (await portIfFree(wanted)) ?? (await portIfFree(0)) ?? wanted;
}

function portIfFree(port: number): Promise<number | null> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once("error", () => {
      resolve(null);
    });
    server.listen(port, "127.0.0.1", () => {
      const address = server.address();
      server.close(() => {
        resolve(typeof address === "object" && address !== null ? address.port : null);
      });
    });
  });
}
