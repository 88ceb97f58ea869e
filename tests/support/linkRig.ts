import type { AgentFrame } from "@boothward/shared-types";
import { onTestFinished } from "vitest";
import type { SignIn } from "../../agent/link/linkSocket.ts";
import { type Link, type LinkStatus, startLink } from "../../agent/link/startLink.ts";
import type { AppendItem, Outbox } from "../../agent/outbox/outbox.ts";
import { FramePair } from "./framePair.ts";
import { handTime } from "./handTime.ts";
import { keptLog } from "./keptLog.ts";
import { scratchFolder } from "./scratchFolder.ts";
import { StoringEnd } from "./storingEnd.ts";
import { testOutbox } from "./testOutbox.ts";

type Batch = Extract<AgentFrame, { kind: "batch" }>;

/** True time is this far from the agent's steady clock; the wall clock of `handTime` begins right. */
export const trueMinusMonoMs = Date.UTC(2026, 5, 20, 18) - 1_000;

/** A real outbox and a real link, with hand-moved time, a pair of queues as the network and a plain other end. */
export class LinkRig {
  readonly time = handTime();
  readonly pair = new FramePair();
  readonly kept = keptLog();
  readonly end = new StoringEnd();
  readonly statuses: LinkStatus[] = [];
  /** What the dice show at every throw. */
  dice = 0.5;
  signIn: SignIn | null = { dashboard: "http://dashboard.test", token: "token-of-this-agent" };
  /** Sizes of the batches that came in, as `boot1: 1 2 3 after 0`. */
  readonly batches: string[] = [];
  readonly outbox: Outbox;
  readonly link: Link;
  #heard: AgentFrame[] = [];

  constructor(outbox: Outbox) {
    this.outbox = outbox;
    this.link = startLink({
      outbox,
      openSocket: this.pair.open,
      readSignIn: () => this.signIn,
      who: () => {
        const { bootId, lastSeq } = outbox.stats();
        return { agentId: "agent-1", bootId: bootId ?? "", lastSeq, version: "0.1.0", scenario: null };
      },
      dashboard: "http://dashboard.test",
      clock: this.time.clock,
      dice: () => this.dice,
      after: this.time.after,
      log: this.kept.log,
      onStatus: (status) => this.statuses.push(status),
    });
    onTestFinished(() => this.link.stop());
    this.time.pass(0);
  }

  append(items: readonly AppendItem[]): Promise<void> {
    return this.outbox.append(items);
  }

  /** The dashboard accepts and welcomes; the agent's greeting and what follows it are heard. */
  welcome(): void {
    this.pair.accept();
    const greet = this.hear().find((frame) => frame.kind === "greet");
    if (!greet) throw new Error("the agent did not greet");
    const { t1MonoMs } = greet;
    const nowMs = this.time.clock().monoMs + trueMinusMonoMs;
    const rest = { boothId: "booth-1", boothName: "Willow", stored: this.end.stored() };
    this.pair.answer({ kind: "welcome", protocol: 1, ...rest, t1MonoMs, t2Ms: nowMs, t3Ms: nowMs });
    this.pair.flush();
  }

  /** Takes the agent's frames since the last call. */
  hear(): AgentFrame[] {
    const frames = this.pair.received();
    this.#heard.push(...frames);
    return frames;
  }

  /** Takes the agent's frames, and queues the answer to each batch and beat. */
  answerAll(): void {
    for (const frame of this.hear()) {
      if (frame.kind === "batch") this.answerBatch(frame);
      if (frame.kind === "beat") this.answerBeat(frame.t1MonoMs);
    }
  }

  answerBatch(batch: Batch): void {
    this.batches.push(batchWords(batch));
    const { kind, bootId, seq } = this.end.take(batch);
    this.pair.answer(kind === "ack" ? { kind, bootId, throughSeq: seq } : { kind, bootId, afterSeq: seq });
  }

  answerBeat(t1MonoMs: number): void {
    const nowMs = this.time.clock().monoMs + trueMinusMonoMs;
    this.pair.answer({ kind: "beat", t1MonoMs, t2Ms: nowMs, t3Ms: nowMs });
  }

  /** Answers and delivers until the agent has nothing more to say. */
  settle(): void {
    for (let turn = 0; turn < 100; turn++) {
      this.answerAll();
      this.pair.flush();
    }
  }

  /** All frames ever heard, by kind. */
  heardKinds(): string[] {
    this.hear();
    return this.#heard.map((frame) => frame.kind);
  }
}

export function batchWords({ bootId, items, afterSeq }: Batch): string {
  return `${bootId}: ${items.map((item) => item.seq).join(" ")} after ${afterSeq}`;
}

/** A link that has just tried to connect, over an outbox whose boot `boot1` has begun. */
export async function linkRig(): Promise<LinkRig> {
  const outbox = await testOutbox({ folder: scratchFolder() });
  outbox.startBoot("boot1");
  return new LinkRig(outbox);
}
