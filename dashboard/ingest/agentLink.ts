import {
  closeCodes,
  protocolVersion,
  type AgentFrame,
  type Clock,
  type CloseWord,
  type DashboardFrame,
  type StoredItem,
} from "@boothward/shared-types";
import type { Logger } from "pino";
import type { RawData, WebSocket } from "ws";
import type { Store } from "../store/openStore.ts";
import type { BatchOutcome, BatchToStore } from "../store/storeBatches.ts";
import type { AgentRow } from "../store/tables.ts";
import { agentClocks } from "./agentClocks.ts";
import type { BootClock } from "./bootClock.ts";
import { readMessage, type FrameRead } from "./readFrame.ts";
import { receiveBatch } from "./receiveBatch.ts";
import { welcomeAgent } from "./welcomeAgent.ts";

type Frame<Kind extends AgentFrame["kind"]> = Extract<AgentFrame, { kind: Kind }>;
type Received = { readonly read: FrameRead; readonly atMs: number };

/** Batches of one link that may wait for the disk; past it the socket is not read. */
const mostBatchesWaiting = 64;
/** Frames that may come before the welcome; an honest agent waits for it. */
const mostEarlyFrames = 16;
/** RFC 6455 section 5.5: a control frame carries at most 125 bytes, two of them the code. */
const mostReasonBytes = 123;
/** RFC 6455 section 7.4.1 and its registry: going away; something unexpected at the server. */
const goingAway = 1001;
const unexpected = 1011;

/** What a link works with. `commit` resolves once the batch is on disk. */
export type LinkSurroundings = {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
  readonly commit: (batch: BatchToStore) => Promise<BatchOutcome>;
  onGreeted(link: AgentLink, atMs: number): void;
  onHeard(link: AgentLink, atMs: number): void;
  onStored(boothId: string, newItems: readonly StoredItem[], keptAside: number): void;
  onClosed(link: AgentLink): void;
};

/**
 * One agent's socket, from its greeting to its end: reads its frames by the rules of PROTOCOL.md and
 * answers them. Its token was checked at the gate.
 */
export class AgentLink {
  readonly agent: AgentRow;
  readonly #socket: WebSocket;
  readonly #with: LinkSurroundings;
  readonly #log: Logger;
  readonly #clocks = agentClocks();
  #early: Received[] = [];
  #stage: "new" | "greeting" | "open" | "closed" = "new";
  #heardMonoMs: number;
  #batchesWaiting = 0;

  constructor(socket: WebSocket, agent: AgentRow, surroundings: LinkSurroundings) {
    this.agent = agent;
    this.#socket = socket;
    this.#with = surroundings;
    this.#log = surroundings.log.child({ agentId: agent.agentId });
    this.#heardMonoMs = surroundings.clock().monoMs;
    socket.on("message", (message, isBinary) => this.#onMessage(message, isBinary));
    // A frame over the limit was answered with 1009 by the library before this is said, [F2].
    socket.on("error", (error) => this.#log.warn({ reason: error.message }, "link broken"));
    socket.on("close", () => this.#ended());
  }

  get heardMonoMs(): number {
    return this.#heardMonoMs;
  }

  /** The clock of the boot that greeted; null before that. */
  get bootClock(): BootClock | null {
    return this.#clocks.present();
  }

  /** Says why, hangs up, and hears nothing of this link from then on. */
  hangUp(word: CloseWord, reason: string, field: string | null = null): void {
    if (this.#stage === "closed") return;
    this.#log.warn({ close: word, reason, field }, "link hung up");
    this.#send({ kind: "refused", reason, field });
    this.#end(closeCodes[word], reason);
  }

  /** Ends the link because the dashboard itself stops; the agent comes back. */
  leave(): void {
    this.#end(goingAway, "the dashboard stops");
  }

  #end(code: number, reason: string): void {
    this.#socket.close(code, Buffer.from(reason).subarray(0, mostReasonBytes).toString());
    this.#ended();
  }

  #ended(): void {
    if (this.#stage === "closed") return;
    this.#stage = "closed";
    this.#with.onClosed(this);
  }

  #failed(error: unknown, what: string): void {
    this.#log.error({ err: error }, what);
    this.#end(unexpected, what);
  }

  #onMessage(message: RawData, isBinary: boolean): void {
    if (this.#stage === "closed") return;
    const now = this.#with.clock();
    this.#heardMonoMs = now.monoMs;
    const received = { read: readMessage(message, isBinary), atMs: now.wallMs };
    if (this.#stage !== "greeting") this.#onFrame(received);
    else if (this.#early.length < mostEarlyFrames) this.#early.push(received);
    else this.hangUp("badFrame", "too many frames before the welcome");
  }

  #onFrame({ read, atMs }: Received): void {
    if (this.#stage === "closed") return;
    if (read.as === "refused") return this.hangUp(read.close, read.reason, read.field);
    const kind = read.as === "frame" ? read.frame.kind : read.kind;
    if (this.#stage === "new" && kind !== "greet")
      return this.hangUp("badFrame", `the first frame must be greet, not ${kind}`, "kind");
    if (this.#stage === "open") this.#with.onHeard(this, atMs);
    if (read.as === "passedOver") return this.#log.info({ kind }, "frame of an unknown kind passed over");
    if (read.frame.kind === "greet") void this.#greet(read.frame, atMs);
    else if (read.frame.kind === "beat") this.#beat(read.frame, atMs);
    else void this.#batch(read.frame, atMs);
  }

  async #greet(frame: Frame<"greet">, atMs: number): Promise<void> {
    if (frame.agentId !== this.agent.agentId)
      return this.hangUp("notPaired", "the token was given to another agent", "agentId");
    this.#stage = "greeting";
    try {
      const welcomed = await welcomeAgent(this.#with.store, this.agent, frame.bootId, atMs);
      if (this.#isClosed()) return;
      if (welcomed === null) return this.hangUp("revoked", "this agent was revoked");
      this.#clocks.begin(frame.bootId, welcomed.boots);
      this.#stage = "open";
      this.#with.onGreeted(this, atMs);
      const stored = welcomed.boots.map(({ bootId, throughSeq }) => ({ bootId, throughSeq }));
      this.#send({
        ...{ kind: "welcome", protocol: protocolVersion, stored },
        ...{ boothId: this.agent.boothId, boothName: welcomed.boothName },
        ...{ t1MonoMs: frame.t1MonoMs, t2Ms: atMs, t3Ms: this.#with.clock().wallMs },
      });
      this.#log.info({ bootId: frame.bootId, version: frame.version }, "agent linked");
    } catch (error) {
      return this.#failed(error, "the greeting could not be answered");
    }
    const early = this.#early;
    this.#early = [];
    for (const received of early) this.#onFrame(received);
  }

  /** Reads the stage afresh: it may have changed while something was awaited. */
  #isClosed(): boolean {
    return this.#stage === "closed";
  }

  #beat(frame: Frame<"beat">, atMs: number): void {
    this.#send({
      ...{ kind: "beat", t1MonoMs: frame.t1MonoMs },
      ...{ t2Ms: atMs, t3Ms: this.#with.clock().wallMs },
    });
    if (frame.sample !== null) this.#saveClock(this.#clocks.addSample(frame.sample));
  }

  #saveClock(clock: BootClock | null): void {
    if (clock === null) return;
    this.#with.store.agents.saveClock(this.agent.agentId, clock).catch((error: unknown) => {
      this.#log.error({ err: error }, "the agent's clock could not be kept");
    });
  }

  async #batch(frame: Frame<"batch">, receivedAtMs: number): Promise<void> {
    const { agentId, boothId } = this.agent;
    const { batch, claimsFuture } = receiveBatch(frame, {
      ...{ agentId, boothId, receivedAtMs },
      clock: this.#clocks.ofBoot(frame.bootId),
      wallBehindMs: this.#clocks.present()?.wallBehindMs ?? null,
    });
    this.#setWaiting(+1);
    try {
      this.#answer(frame.bootId, await this.#with.commit(batch));
      if (claimsFuture) this.#doubt(frame.bootId, receivedAtMs);
    } catch (error) {
      this.#failed(error, "a batch could not be stored");
    } finally {
      this.#setWaiting(-1);
    }
  }

  #setWaiting(change: number): void {
    this.#batchesWaiting += change;
    if (this.#batchesWaiting >= mostBatchesWaiting) this.#socket.pause();
    else if (this.#socket.isPaused) this.#socket.resume();
  }

  /** Says what became of a batch: only now, after the commit, [I4]. */
  #answer(bootId: string, outcome: BatchOutcome): void {
    if (outcome.kind === "resend") {
      this.#log.info({ bootId, afterSeq: outcome.afterSeq }, "batch does not follow what is stored");
      return this.#send({ kind: "resend", bootId, afterSeq: outcome.afterSeq });
    }
    const { throughSeq, newItems, keptAside } = outcome;
    this.#send({ kind: "ack", bootId, throughSeq });
    if (keptAside.length > 0) this.#log.warn({ bootId, keptAside }, "items with wrong fields kept aside");
    this.#with.onStored(this.agent.boothId, newItems, keptAside.length);
  }

  #doubt(bootId: string, atMs: number): void {
    const clock = this.#clocks.addDoubt(bootId, atMs);
    if (clock === null) return;
    this.#log.warn({ bootId }, "items from the future were placed at their arrival: the clock is doubtful");
    this.#saveClock(clock);
  }

  #send(frame: DashboardFrame): void {
    if (this.#socket.readyState === this.#socket.OPEN) this.#socket.send(JSON.stringify(frame));
  }
}
