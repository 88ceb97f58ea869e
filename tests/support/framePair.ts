import type { AgentFrame, DashboardFrame } from "@boothward/shared-types";
import { agentFrame } from "@boothward/shared-types";
import type { LinkListener, OpenLinkSocket, SignIn } from "../../agent/link/linkSocket.ts";

/**
 * A socket between agent and dashboard made of two queues: nothing arrives until the test flushes it, and
 * what waits can be dropped or cut off.
 */
export class FramePair {
  /** What the agent signed in with, one for each try. */
  readonly signIns: SignIn[] = [];
  /** How the agent ended its sockets: `4408 reason`, or `cut`. */
  readonly endings: string[] = [];
  #listener: LinkListener | null = null;
  #fromAgent: AgentFrame[] = [];
  #toAgent: string[] = [];

  readonly open: OpenLinkSocket = (signIn, listener) => {
    this.signIns.push(signIn);
    this.#listener = listener;
    this.#fromAgent = [];
    this.#toAgent = [];
    return {
      send: (text) => this.#fromAgent.push(agentFrame.parse(JSON.parse(text))),
      close: (code, reason) => this.#end(`${code} ${reason}`),
      cut: () => this.#end("cut"),
    };
  };

  get isOpen(): boolean {
    return this.#listener !== null;
  }

  accept(): void {
    this.#listener?.opened();
  }

  /** Refuses the handshake with an HTTP status. */
  refuse(status: number): void {
    this.#takeListener()?.ended({ status, words: `HTTP status ${status}` });
  }

  /** Ends the connection from the dashboard's side. */
  close(closeCode: number, words = ""): void {
    this.#takeListener()?.ended({ closeCode, words });
  }

  /** The network is gone: what was under way is lost. 1006: RFC 6455 section 7.1.5. */
  cut(): void {
    this.#toAgent = [];
    this.#fromAgent = [];
    this.close(1006, "the connection broke");
  }

  /** Queues a frame, or any text, towards the agent. */
  answer(frame: DashboardFrame | string): void {
    this.#toAgent.push(typeof frame === "string" ? frame : JSON.stringify(frame));
  }

  /** Lets everything that waits arrive at the agent. */
  flush(): void {
    for (const text of this.#toAgent.splice(0)) this.#listener?.text(text);
  }

  /** Loses what waits on the way to the agent. */
  drop(): void {
    this.#toAgent = [];
  }

  /** Takes what the agent has sent since the last call. */
  received(): AgentFrame[] {
    return this.#fromAgent.splice(0);
  }

  #end(ending: string): void {
    this.endings.push(ending);
    this.#listener = null;
  }

  #takeListener(): LinkListener | null {
    const listener = this.#listener;
    this.#listener = null;
    return listener;
  }
}
