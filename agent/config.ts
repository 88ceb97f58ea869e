import { dirname, resolve } from "node:path";
import * as z from "zod";
import { readYaml } from "./readYaml.ts";
import { folderSourceConfig } from "./sources/folderSourceConfig.ts";
import { hookSourceConfig } from "./sources/hook/hookSourceConfig.ts";
import { hostSourceConfig } from "./sources/hostSourceConfig.ts";
import { ippSourceConfig } from "./sources/ipp/ippSourceConfig.ts";
import { machineSourceConfig } from "./sources/machine/machineSourceConfig.ts";
import { peersSourceConfig } from "./sources/peers/peersSourceConfig.ts";
import { spoolerSourceConfig } from "./sources/spooler/spoolerSourceConfig.ts";
import { thermometersSourceConfig } from "./sources/thermometersSourceConfig.ts";

export const sourceConfig = z.discriminatedUnion("kind", [
  ippSourceConfig,
  spoolerSourceConfig,
  folderSourceConfig,
  hookSourceConfig,
  hostSourceConfig,
  thermometersSourceConfig,
  peersSourceConfig,
  machineSourceConfig,
]);
export type SourceConfig = z.infer<typeof sourceConfig>;

const outboxConfig = z.strictObject({
  /** A long weekend without any network is about 100 MB. */
  maxMb: z.number().min(1).max(10_000).default(128),
  /** How long the dashboard may ask again for what it had: a nightly backup and two days to restore it. */
  keepHours: z.number().min(0).max(8_760).default(72),
  keepMb: z.number().min(0).max(10_000).default(32),
});

const logConfig = z.strictObject({
  level: z.enum(["debug", "info", "warn", "error"]).default("info"),
  /** Left out: the log goes to stderr. */
  file: z.string().min(1).optional(),
  /** A file of this size is closed, and the next number begun. */
  maxMb: z.number().min(0.1).max(1_000).default(10),
  keepFiles: z.int().min(1).max(100).default(5),
});
export type LogConfig = z.infer<typeof logConfig>;

const scenarioConfig = z.strictObject({
  file: z.string().min(1),
  /** True instant of the scenario's beginning, Unix ms: what lies before now is sent as backlog. */
  startedAtMs: z.number().min(0),
  /** Makes the agent's wall clock wrong by this much, to show that it is corrected. */
  wallErrorMs: z.number().default(0),
});
export type ScenarioConfig = z.infer<typeof scenarioConfig>;

const agentConfig = z.strictObject({
  /** Address of the dashboard; left out: the one the agent was paired with. */
  dashboard: z.url({ protocol: /^https?$/, error: "must be an http or https address" }).optional(),
  /** Where the agent keeps its outbox, its identity and its token. */
  dataFolder: z.string().min(1),
  outbox: outboxConfig.prefault({}),
  log: logConfig.prefault({}),
  sources: z.array(sourceConfig).default([]).superRefine(refuseSameNames),
  scenario: scenarioConfig.optional(),
});
export type AgentConfig = z.infer<typeof agentConfig>;

/**
 * Reads the agent's one configuration file; paths in it are relative to its own folder.
 *
 * Throws `ConfigError`, whose lines name file, line and field, when anything in it is wrong.
 */
export function readConfig(file: string, text: string): AgentConfig {
  const config = readYaml(file, text, agentConfig);
  const besideFile = (path: string) => resolve(dirname(file), path);
  const { log, scenario } = config;
  return {
    ...config,
    dataFolder: besideFile(config.dataFolder),
    log: log.file === undefined ? log : { ...log, file: besideFile(log.file) },
    sources: config.sources.map((source) =>
      source.kind === "folder" ? { ...source, path: besideFile(source.path) } : source,
    ),
    ...(scenario ? { scenario: { ...scenario, file: besideFile(scenario.file) } } : {}),
  };
}

function refuseSameNames(sources: readonly SourceConfig[], context: z.RefinementCtx): void {
  const names = sources.map((source) => source.name);
  names.forEach((name, index) => {
    if (names.indexOf(name) === index) return;
    const message = `another source is called "${name}" already: give this one a name of its own`;
    context.addIssue({ code: "custom", path: [index], message });
  });
}
