import type { AgentFrame } from "@boothward/shared-types";
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { readConfig } from "../../../agent/config.ts";
import { writeCredentials } from "../../../agent/identity.ts";
import { type RunningAgent, runAgent } from "../../../agent/runAgent.ts";
import { FramePair } from "../../support/framePair.ts";
import { type HandTime, handTime } from "../../support/handTime.ts";
import { keptLog } from "../../support/keptLog.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { StoringEnd } from "../../support/storingEnd.ts";

type Batch = Extract<AgentFrame, { kind: "batch" }>;

/** An agent in a folder, run in hand-moved time against a plain storing end. */
class AgentRig {
  readonly time: HandTime;
  readonly pair = new FramePair();
  readonly kept = keptLog();
  readonly end: StoringEnd;
  readonly folder: string;
  readonly frames: AgentFrame[] = [];
  readonly #prefix: string;
  #agent: RunningAgent | null = null;

  constructor(options: { folder?: string; end?: StoringEnd; time?: HandTime; prefix?: string } = {}) {
    this.folder = options.folder ?? scratchFolder();
    this.end = options.end ?? new StoringEnd();
    this.time = options.time ?? handTime();
    this.#prefix = options.prefix ?? "id";
  }

  async start(settings: object = {}): Promise<void> {
    let ids = 0;
    writeCredentials(join(this.folder, ""), {
      agentId: "agent-1",
      token: "token-of-this-agent-here",
      boothId: "booth-1",
      boothName: "Willow",
      dashboard: "http://dashboard.test",
    });
    const text = JSON.stringify({ dataFolder: this.folder, ...settings });
    this.#agent = await runAgent({
      config: readConfig(join(this.folder, "agent.yaml"), text),
      clock: this.time.clock,
      dice: () => 0,
      newId: () => `${this.#prefix}-${(ids += 1)}`,
      after: this.time.after,
      openSocket: this.pair.open,
      hostName: "tablet",
      platform: "test",
      log: this.kept.log,
      onStatus: () => undefined,
    });
    onTestFinished(() => this.stop());
    this.time.pass(0);
  }

  async stop(): Promise<void> {
    await this.#agent?.stop();
    this.#agent = null;
  }

  welcome(): void {
    this.pair.accept();
    const greet = this.#hear().find((frame) => frame.kind === "greet");
    if (!greet) throw new Error("no greeting");
    const rest = { boothId: "booth-1", boothName: "Willow", stored: this.end.stored(), t2Ms: 0, t3Ms: 0 };
    this.pair.answer({ kind: "welcome", protocol: 1, t1MonoMs: greet.t1MonoMs, ...rest });
    this.pair.flush();
  }

  /** Stores what has come and acknowledges it. */
  store(): void {
    for (const frame of this.#hear()) if (frame.kind === "batch") this.#take(frame);
    this.pair.flush();
  }

  /** Kinds of what is stored, boot by boot. */
  storedKinds(): string[] {
    return this.end.boots().flatMap((bootId) => this.end.itemsOf(bootId).map((item) => item.kind));
  }

  #take(batch: Batch): void {
    const { kind, bootId, seq } = this.end.take(batch);
    if (kind === "ack") this.pair.answer({ kind, bootId, throughSeq: seq });
  }

  #hear(): AgentFrame[] {
    const frames = this.pair.received();
    this.frames.push(...frames);
    return frames;
  }
}

/** Waits until this many items are stored; nothing but the disk is waited for, and what then falls due at once. */
async function untilStored(rig: AgentRig, count: number): Promise<void> {
  await expect
    .poll(() => {
      rig.time.pass(0);
      rig.store();
      return rig.storedKinds().length;
    })
    .toBe(count);
}

const print = (i: number) => ({
  atMs: i * 1_000,
  item: { class: "fact", kind: "print", copies: 1, pitches: 1, queue: null },
});

/** A scenario of 60 prints, one a second, whose link is held in second 30 for 20 s. */
function aScenario(folder: string): string {
  const file = join(folder, "windy.ndjson");
  const lines: object[] = [{ scenario: "A windy evening", lengthMs: 60_000 }];
  for (let i = 0; i < 60; i++) {
    if (i === 30) lines.push({ atMs: 30_000, holdLink: 20_000 });
    lines.push(print(i));
  }
  writeFileSync(file, lines.map((line) => JSON.stringify(line)).join("\n"));
  return file;
}

describe("runAgent", () => {
  it("begins with a fact that says which agent runs where, and on no scenario", async () => {
    const rig = new AgentRig();
    await rig.start();
    rig.welcome();
    await untilStored(rig, 1);
    expect(rig.frames[0]).toMatchObject({ kind: "greet", agentId: "id-2", scenario: null });
    expect(rig.end.itemsOf("id-1")).toMatchObject([
      { seq: 1, kind: "agentStarted", source: "agent", hostName: "tablet", platform: "test", scenario: null },
    ]);
  });

  it("[T6] begins a new boot when the wall clock is stepped, says so in a fact, and links anew", async () => {
    const rig = new AgentRig();
    await rig.start();
    rig.welcome();
    await untilStored(rig, 1);
    rig.time.stepWall(7_200_000);
    rig.time.pass(1_000);
    expect(rig.pair.endings).toEqual(["1000 a new boot begins"]);
    rig.time.pass(0);
    rig.welcome();
    await untilStored(rig, 2);
    expect(rig.end.itemsOf("id-3")).toMatchObject([{ seq: 1, kind: "clockStepped", stepMs: 7_200_000 }]);
  });

  it("[I1] sends what an earlier run left under that run's boot", async () => {
    const first = new AgentRig({ prefix: "first" });
    await first.start();
    await first.stop();
    const second = new AgentRig({ folder: first.folder, prefix: "second" });
    await second.start();
    second.welcome();
    await untilStored(second, 2);
    expect(second.end.boots()).toEqual(["first-1", "second-1"]);
  });

  it("plays a scenario: says so in greeting and fact, sends the past as backlog on its own clocks", async () => {
    const rig = new AgentRig();
    const startedAtMs = rig.time.clock().wallMs - 20_500;
    await rig.start({ scenario: { file: aScenario(rig.folder), startedAtMs, wallErrorMs: -5_000 } });
    rig.welcome();
    await untilStored(rig, 23);
    expect(rig.frames[0]).toMatchObject({ kind: "greet", scenario: "A windy evening", t1MonoMs: 20_500 });
    const items = rig.end.itemsOf("id-1");
    expect(items[0]).toMatchObject({ kind: "agentStarted", scenario: "A windy evening" });
    expect(items[2]).toMatchObject({ kind: "print", atMs: startedAtMs - 5_000, monoMs: 0 });
    expect(items.at(-1)).toMatchObject({
      atMs: startedAtMs + 15_000,
      monoMs: 20_000,
      printId: "A windy evening-22",
    });
  });

  it("cuts the link when the scenario holds it, keeps on, and brings everything after it", async () => {
    const rig = new AgentRig();
    const startedAtMs = rig.time.clock().wallMs - 29_500;
    await rig.start({ scenario: { file: aScenario(rig.folder), startedAtMs } });
    rig.welcome();
    await untilStored(rig, 32);
    rig.time.pass(500);
    await expect.poll(() => rig.pair.endings).toEqual(["cut"]);
    for (let i = 0; i < 19; i++) {
      rig.time.pass(1_000);
      await new Promise((resolve) => setImmediate(resolve));
    }
    expect(rig.pair.isOpen).toBe(false);
    rig.time.pass(1_000);
    expect(rig.pair.isOpen).toBe(true);
    rig.welcome();
    await untilStored(rig, 32 + 21);
  });

  it("goes on after a restart where its outbox ends, without a repeat", async () => {
    const time = handTime();
    const startedAtMs = time.clock().wallMs - 10_500;
    const first = new AgentRig({ time, prefix: "first" });
    const scenario = { file: aScenario(first.folder), startedAtMs };
    await first.start({ scenario });
    first.welcome();
    await untilStored(first, 13);
    await first.stop();
    time.pass(5_000);
    const second = new AgentRig({ time, folder: first.folder, end: first.end, prefix: "second" });
    await second.start({ scenario });
    second.welcome();
    await untilStored(second, 13 + 2 + 5);
    const printIds = second.end
      .boots()
      .flatMap((bootId) => second.end.itemsOf(bootId).flatMap((item) => item["printId"] ?? []));
    expect(printIds).toEqual(Array.from({ length: 16 }, (_, i) => `A windy evening-${i + 2}`));
  });

  it("refuses to start on a scenario that is not there, naming it", async () => {
    const rig = new AgentRig();
    const scenario = { file: join(rig.folder, "none.ndjson"), startedAtMs: 0 };
    await expect(rig.start({ scenario })).rejects.toThrow(`${scenario.file}: there is no such file`);
  });

  it("links as soon as it has been paired while it runs", async () => {
    const rig = new AgentRig();
    await rig.start();
    rig.pair.accept();
    rig.pair.close(4403, "revoked");
    rig.time.pass(3_000);
    expect(rig.pair.signIns).toHaveLength(1);
    writeCredentials(rig.folder, {
      agentId: "agent-1",
      token: "another-token-of-this-agent",
      boothId: "booth-2",
      boothName: "Rowan",
      dashboard: "http://dashboard.test",
    });
    rig.time.pass(3_000);
    rig.time.pass(0);
    expect(rig.pair.signIns.map(({ token }) => token)).toEqual([
      "token-of-this-agent-here",
      "another-token-of-this-agent",
    ]);
  });
});
