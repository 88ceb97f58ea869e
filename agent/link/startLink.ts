import type { AgentFrame, AnyItem, Clock } from "@boothward/shared-types";
import { protocolVersion } from "@boothward/shared-types";
import type { Log } from "../log.ts";
import type { LinkSocket, OpenLinkSocket, SignIn } from "./linkSocket.ts";
import {
  type LinkAction,
  type LinkChange,
  type LinkState,
  type Position,
  firstLinkState,
} from "./linkState.ts";
import { readFrame } from "./readFrame.ts";
import { stepLink, wakeAtMs } from "./stepLink.ts";
import { type Ending, type TroubleWord, troubleSentence } from "./trouble.ts";

/** What the link needs of the outbox. */
export type LinkOutbox = {
  peek(limit: number, sent: Position | null): { bootId: string; afterSeq: number; items: AnyItem[] } | null;
  dropThrough(bootId: string, seq: number): void;
  rewindTo(bootId: string, afterSeq: number): void;
  boots(): string[];
  whenDurable(listener: () => void): void;
};

/** Who greets; asked anew for each greeting. */
export type Greeter = () => {
  agentId: string;
  bootId: string;
  lastSeq: number;
  version: string;
  scenario: string | null;
};

export type LinkOptions = {
  readonly outbox: LinkOutbox;
  readonly openSocket: OpenLinkSocket;
  /** null: not paired. Asked anew for each try. */
  readonly readSignIn: () => SignIn | null;
  readonly who: Greeter;
  /** For the sentences, until it has been paired. */
  readonly dashboard: string;
  readonly clock: Clock;
  readonly dice: () => number;
  /** Calls back once after a time, unless it is called off by what it returns. */
  readonly after: (ms: number, callBack: () => void) => () => void;
  readonly log: Log;
  /** Called whenever the status is another. */
  readonly onStatus: (status: LinkStatus) => void;
};

export type LinkStatus = { readonly word: "connecting" | "linked" | TroubleWord; readonly sentence: string };

export type Link = {
  status(): LinkStatus;
  /** Cuts the link and stays away for a time: a played scenario's bad network. */
  holdLink(holdMs: number): void;
  /** A new boot was begun in the outbox. */
  bootBegun(): void;
  /** Tries again without waiting any longer: the agent was paired anew. */
  tryNow(): void;
  stop(): void;
};

/** Most batches that are sent ahead of their acknowledgement: enough to fill a slow line, little to repeat. */
const mostInFlight = 4;

/** Most a frame of the other end is worth in a log line. */
const maxLoggedChars = 200;

/**
 * Keeps a link to the dashboard and sends what is in the outbox, by the rules of PROTOCOL.md.
 *
 * All decisions are made by `stepLink`; this shell carries them out.
 */
export function startLink(options: LinkOptions): Link {
  const shell = new LinkShell(options);
  options.outbox.whenDurable(() => shell.sendBatches());
  shell.change({ kind: "tick" });
  return {
    status: () => shell.status,
    holdLink: (holdMs) => shell.change({ kind: "hold", holdMs }),
    bootBegun: () => shell.change({ kind: "bootBegun" }),
    tryNow: () => shell.change({ kind: "tryNow" }),
    stop: () => shell.stop(),
  };
}

class LinkShell {
  readonly #options: LinkOptions;
  #state: LinkState = firstLinkState;
  #socket: LinkSocket | null = null;
  /** Counts sockets, so that a late word of an earlier one is not taken for one of the present one. */
  #generation = 0;
  #callOffTimer: () => void = () => undefined;
  #isStopped = false;
  #dashboard: string;
  status: LinkStatus;

  constructor(options: LinkOptions) {
    this.#options = options;
    this.#dashboard = options.dashboard;
    this.status = { word: "connecting", sentence: `Connecting to ${options.dashboard}.` };
  }

  change(change: LinkChange): void {
    if (this.#isStopped) return;
    const { clock, dice } = this.#options;
    const { state, actions } = stepLink(this.#state, change, clock(), dice());
    this.#state = state;
    for (const action of actions) this.#carryOut(action);
    this.sendBatches();
    this.#setTimer();
  }

  stop(): void {
    this.#isStopped = true;
    this.#callOffTimer();
    this.#letGo()?.close(1000, "the agent stops");
  }

  /** Sends batches as long as there are items and room for more without an acknowledgement. */
  sendBatches(): void {
    while (
      !this.#isStopped &&
      this.#state.phase.word === "linked" &&
      this.#state.inFlight.length < mostInFlight
    ) {
      const batch = this.#options.outbox.peek(this.#state.batchItems, this.#state.sent);
      const last = batch?.items.at(-1);
      if (!batch || !last) return;
      const sent = { bootId: batch.bootId, seq: last.seq };
      const inFlight = [...this.#state.inFlight, { ...sent, sentAtMs: this.#options.clock().monoMs }];
      this.#state = { ...this.#state, sent, inFlight };
      this.#send({ kind: "batch", ...batch });
      this.#setTimer();
    }
  }

  #setTimer(): void {
    this.#callOffTimer();
    if (this.#isStopped) return;
    const waitMs = Math.max(0, wakeAtMs(this.#state) - this.#options.clock().monoMs);
    this.#callOffTimer = this.#options.after(waitMs, () => this.change({ kind: "tick" }));
  }

  #carryOut(action: LinkAction): void {
    const { outbox, log } = this.#options;
    switch (action.kind) {
      case "open":
        return this.#open();
      case "greet":
        return this.#greet(action.t1MonoMs);
      case "send":
        return this.#send(action.frame);
      case "close":
        return this.#letGo()?.close(action.code, action.reason);
      case "cut":
        return this.#letGo()?.cut();
      case "settle":
        return settleStored(outbox, action.stored);
      case "drop":
        return outbox.dropThrough(action.position.bootId, action.position.seq);
      case "rewind":
        return setAcked(outbox, action.position);
      case "sayTrouble":
        return this.#sayTrouble(action.word, action.ending);
      case "sayRefused":
        return log.warn({ field: action.field }, `the dashboard refused a frame: ${action.reason}`);
      case "sayLinked":
        this.#setStatus({ word: "linked", sentence: `Linked as ${action.boothName}.` });
        return log.info({ boothName: action.boothName }, this.status.sentence);
      case "sayClock":
        return sayClock(log, action.wallErrorMs);
    }
  }

  #open(): void {
    const generation = ++this.#generation;
    const change = (change: LinkChange) => {
      if (generation === this.#generation) this.change(change);
    };
    const signIn = this.#options.readSignIn();
    if (signIn === null) {
      // After the present step, which has set the state to opening.
      queueMicrotask(() => change({ kind: "ended", ending: { status: 401, words: "no token" } }));
      return;
    }
    this.#dashboard = signIn.dashboard;
    this.#socket = this.#options.openSocket(signIn, {
      opened: () => change({ kind: "opened" }),
      text: (text) => this.#take(text, change),
      ended: (ending) => {
        if (generation === this.#generation) this.#socket = null;
        change({ kind: "ended", ending });
      },
    });
  }

  #take(text: string, change: (change: LinkChange) => void): void {
    const read = readFrame(text);
    const shown = text.slice(0, maxLoggedChars);
    if (read.kind === "known") change({ kind: "frame", frame: read.frame });
    else if (read.kind === "unknown")
      this.#options.log.info({ frameKind: read.frameKind }, "a frame of an unknown kind was passed over");
    else {
      this.#options.log.warn({ reason: read.reason, shown }, "a frame of the dashboard could not be read");
      change({ kind: "badFrame", reason: read.reason });
    }
  }

  #greet(t1MonoMs: number): void {
    this.#send({ kind: "greet", protocol: protocolVersion, ...this.#options.who(), t1MonoMs });
  }

  #send(frame: AgentFrame): void {
    this.#socket?.send(JSON.stringify(frame));
  }

  /** Takes the socket away from the link: what it still says is not heard. */
  #letGo(): LinkSocket | null {
    const socket = this.#socket;
    this.#generation += 1;
    this.#socket = null;
    return socket;
  }

  #setStatus(status: LinkStatus): void {
    this.status = status;
    this.#options.onStatus(status);
  }

  #sayTrouble(word: TroubleWord, ending: Ending): void {
    const sentence = troubleSentence(word, ending, this.#dashboard);
    this.#setStatus({ word, sentence });
    this.#options.log.warn({ trouble: word, words: ending.words }, sentence);
  }
}

function sayClock(log: Log, wallErrorMs: number): void {
  const direction = wallErrorMs > 0 ? "behind" : "ahead";
  const seconds = Math.round(Math.abs(wallErrorMs) / 1000);
  log.warn({ wallErrorMs }, `This computer's clock is ${seconds} s ${direction}; the dashboard corrects it.`);
}

/** The outbox takes over what the dashboard has of every boot; of one it does not know it has nothing. */
function settleStored(outbox: LinkOutbox, stored: readonly { bootId: string; throughSeq: number }[]): void {
  const throughOf = new Map(stored.map(({ bootId, throughSeq }) => [bootId, throughSeq]));
  for (const bootId of outbox.boots()) setAcked(outbox, { bootId, seq: throughOf.get(bootId) ?? 0 });
}

function setAcked(outbox: LinkOutbox, { bootId, seq }: Position): void {
  outbox.rewindTo(bootId, seq);
  outbox.dropThrough(bootId, seq);
}
