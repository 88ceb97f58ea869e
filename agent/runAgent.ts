import type { Clock, NewItem } from "@boothward/shared-types";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { watchedClock } from "./bootClock.ts";
import type { AgentConfig } from "./config.ts";
import { readAgentId, readCredentials } from "./identity.ts";
import type { OpenLinkSocket, SignIn } from "./link/linkSocket.ts";
import { type Link, type LinkStatus, startLink } from "./link/startLink.ts";
import type { Log } from "./log.ts";
import { makeSource } from "./makeSource.ts";
import { type Outbox, openOutbox } from "./outbox/outbox.ts";
import type { Source } from "./readings/source.ts";
import { takeReadings } from "./readings/takeReadings.ts";
import { type Scenario, ScenarioError, readScenario } from "./sources/scenarioFile.ts";
import { scenarioClock, scenarioSource } from "./sources/scenarioSource.ts";
import { agentVersion } from "./version.ts";

/** What an agent is given by the program that runs it. */
export type AgentParts = {
  readonly config: AgentConfig;
  readonly clock: Clock;
  readonly dice: () => number;
  readonly newId: () => string;
  readonly after: (ms: number, callBack: () => void) => () => void;
  readonly openSocket: OpenLinkSocket;
  readonly hostName: string;
  readonly platform: string;
  readonly log: Log;
  /** Called when the link's state changes, with a sentence for the person. */
  readonly onStatus: (status: LinkStatus) => void;
};

export type RunningAgent = { stop(): Promise<void> };

/** The steady and the wall clock are compared this often; sources compare them with each item besides. */
const watchEveryMs = 1_000;

/** The token's file is looked at this often while there is no link: somebody may be pairing the agent. */
const pairedAnewEveryMs = 3_000;

/**
 * Puts an agent together and starts it: outbox, link, sources. Throws when the outbox or the scenario
 * cannot be opened; everything later is said in the log and tried again.
 */
export async function runAgent(parts: AgentParts): Promise<RunningAgent> {
  const { config, log, newId } = parts;
  const scenario = config.scenario ? openScenario(config.scenario.file) : null;
  const clock = config.scenario
    ? scenarioClock(parts.clock, config.scenario.startedAtMs, config.scenario.wallErrorMs)
    : parts.clock;
  const outbox = await openOutbox({
    folder: join(config.dataFolder, "outbox"),
    limits: {
      maxBytes: config.outbox.maxMb * 1024 * 1024,
      keepAckedMs: config.outbox.keepHours * 3_600_000,
      keepAckedBytes: config.outbox.keepMb * 1024 * 1024,
    },
    clock,
    wait: (ms) => new Promise((resolve) => parts.after(ms, resolve)),
    log,
  });
  outbox.startBoot(newId());
  const own = ownFacts(outbox, clock, log);
  own.add({
    class: "fact",
    kind: "agentStarted",
    version: agentVersion,
    platform: parts.platform,
    hostName: parts.hostName,
    scenario: scenario?.name ?? null,
  });
  const link = openLink(parts, outbox, clock, scenario);
  const watched = watchedClock(clock, (stepMs) => {
    outbox.startBoot(newId());
    own.add({ class: "fact", kind: "clockStepped", stepMs });
    log.warn({ stepMs }, "the wall clock and the steady clock have parted: a new boot begins");
    link.bootBegun();
  });
  const readings = takeReadings({
    sources: makeSources(parts, outbox, watched, scenario, link),
    clock: watched,
    append: (items) => outbox.append(items),
    log,
  });
  const watches = [
    every(parts.after, watchEveryMs, watched),
    every(parts.after, pairedAnewEveryMs, pairedAnew(parts, link)),
  ];
  return {
    async stop() {
      for (const callOff of watches) callOff();
      await readings.close();
      link.stop();
      await outbox.close();
    },
  };
}

/** The agent's own facts go into the outbox like any other. */
function ownFacts(outbox: Outbox, clock: Clock, log: Log): { add(item: NewItem): void } {
  return {
    add(item) {
      const { wallMs, monoMs } = clock();
      outbox
        .append([{ ...item, source: "agent", atMs: wallMs, monoMs }])
        .catch((error: unknown) => log.error({ error: String(error) }, "a fact of the agent was not kept"));
    },
  };
}

function openScenario(file: string): Scenario {
  if (!existsSync(file)) throw new ScenarioError(`${file}: there is no such file`);
  return readScenario(file, readFileSync(file, "utf8"));
}

function openLink(parts: AgentParts, outbox: Outbox, clock: Clock, scenario: Scenario | null): Link {
  const { config, newId, openSocket, dice, after, log, onStatus } = parts;
  const agentId = readAgentId(config.dataFolder, newId);
  return startLink({
    outbox,
    openSocket,
    readSignIn: () => readSignIn(config, log),
    who: () => {
      const { bootId, lastSeq } = outbox.stats();
      if (bootId === null) throw new Error("greeting before the first boot");
      return { agentId, bootId, lastSeq, version: agentVersion, scenario: scenario?.name ?? null };
    },
    dashboard: config.dashboard ?? "its dashboard",
    clock,
    dice,
    after,
    log,
    onStatus,
  });
}

function readSignIn({ dashboard, dataFolder }: AgentConfig, log: Log): SignIn | null {
  try {
    const paired = readCredentials(dataFolder);
    return paired && { dashboard: dashboard ?? paired.dashboard, token: paired.token };
  } catch (error) {
    log.error({ error: String(error) }, "the agent's credentials cannot be read");
    return null;
  }
}

function makeSources(
  parts: AgentParts,
  outbox: Outbox,
  clock: Clock,
  scenario: Scenario | null,
  link: Link,
): Source[] {
  const { config, after } = parts;
  const surroundings = { clock, stateFolder: join(config.dataFolder, "sources") };
  const sources = config.sources.map((source) => makeSource(source, surroundings));
  if (!scenario || !config.scenario) return sources;
  const { startedAtMs, wallErrorMs } = config.scenario;
  const { mark } = outbox;
  const holdLink = (holdMs: number): void => link.holdLink(holdMs);
  return [...sources, scenarioSource({ scenario, startedAtMs, wallErrorMs, clock, mark, after, holdLink })];
}

/** Looks whether the token has changed since the last look, and if so has the link try at once. */
function pairedAnew({ config, log }: AgentParts, link: Link): () => void {
  let known = readSignIn(config, log)?.token;
  return () => {
    if (link.status().word === "linked") return;
    const token = readSignIn(config, log)?.token;
    if (token !== known) link.tryNow();
    known = token;
  };
}

function every(after: AgentParts["after"], ms: number, doIt: () => unknown): () => void {
  let callOff = after(ms, turn);
  function turn(): void {
    callOff = after(ms, turn);
    doIt();
  }
  return () => callOff();
}
