import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import { maxFrameBytes, type Clock, type StoredItem } from "@boothward/shared-types";
import type { Logger } from "pino";
import { WebSocketServer } from "ws";
import type { Store } from "../store/openStore.ts";
import { secretHash } from "../store/secretHash.ts";
import type { BatchOutcome, BatchToStore } from "../store/storeBatches.ts";
import type { AgentRow } from "../store/tables.ts";
import { AgentLink } from "./agentLink.ts";
import { groupCommit } from "./groupCommit.ts";
import { presences, type Presence } from "./presences.ts";
import { refuseUpgrade } from "./refuseUpgrade.ts";
import { isSilentTooLong } from "./silence.ts";

export type GateOptions = {
  readonly store: Store;
  readonly clock: Clock;
  readonly log: Logger;
  /** Items that are on disk now, in the order of their commits. */
  readonly onStored: (boothId: string, newItems: readonly StoredItem[], keptAside: number) => void;
  /** A booth's agent was linked, was lost or was heard. */
  readonly onPresence: (boothId: string) => void;
};

/** Where agents come in. */
export type Gate = {
  /** Takes over an HTTP upgrade to `/link`, or refuses it. */
  readonly handleUpgrade: (request: IncomingMessage, socket: Duplex, head: Buffer) => void;
  readonly presenceOf: (boothId: string) => Presence;
  /** When each agent that does not run on this computer was last heard. */
  readonly heardFromElsewhereAtMs: () => readonly (number | null)[];
  isLinked(agentId: string): boolean;
  /** Ends the agent's link for good, [L6]; the store refuses its token already. */
  revoked(agentId: string): void;
  /** The agent was paired, perhaps anew: a link with its old token ends. */
  paired(agent: { agentId: string; boothId: string }): void;
  /** Hangs up links that fell silent and writes down who was heard. */
  tick(): Promise<void>;
  close(): Promise<void>;
};

/** Opens the gate: knows from the store which agents there are and when each was last heard. */
export async function openGate(options: GateOptions): Promise<Gate> {
  const { store, clock, log } = options;
  const links = new Set<AgentLink>();
  const fromElsewhere = new Set<string>();
  const present = await presences(store);
  const commits = groupCommit<BatchToStore, BatchOutcome>(store.storeBatches);
  const server = new WebSocketServer({
    noServer: true,
    maxPayload: maxFrameBytes,
    perMessageDeflate: true,
  });

  const surroundings = {
    ...{ store, clock, log, onStored: options.onStored },
    commit: commits.add,
    onGreeted(link: AgentLink, atMs: number) {
      for (const other of linksOf(link.agent.agentId))
        if (other !== link) other.hangUp("replaced", "another link of this agent took its place");
      present.linked(link, atMs);
      options.onPresence(link.agent.boothId);
    },
    onHeard(link: AgentLink, atMs: number) {
      present.heard(link, atMs);
      options.onPresence(link.agent.boothId);
    },
    onClosed(link: AgentLink) {
      links.delete(link);
      present.lost(link);
      options.onPresence(link.agent.boothId);
    },
  };

  const linksOf = (agentId: string) => [...links].filter((link) => link.agent.agentId === agentId);

  async function admit(request: IncomingMessage, socket: Duplex, head: Buffer): Promise<void> {
    const agent = await agentOf(store, request.headers.authorization);
    const refusal = whyNot(agent);
    if (agent === null || refusal !== null) {
      log.warn({ agentId: agent?.agentId ?? null, reason: refusal?.sentence }, "link refused");
      return refuseUpgrade(socket, refusal ?? unknownAgent);
    }
    if (isFromHere(request)) fromElsewhere.delete(agent.agentId);
    else fromElsewhere.add(agent.agentId);
    server.handleUpgrade(request, socket, head, (webSocket) => {
      links.add(new AgentLink(webSocket, agent, surroundings));
    });
  }

  return {
    handleUpgrade(request, socket, head) {
      admit(request, socket, head).catch((error: unknown) => {
        log.error({ err: error }, "an agent could not be let in");
        socket.destroy();
      });
    },
    presenceOf: present.ofBooth,
    heardFromElsewhereAtMs: () => present.heardAtMsOf(fromElsewhere),
    isLinked: present.isLinked,
    revoked(agentId) {
      const boothId = present.forget(agentId);
      for (const link of linksOf(agentId)) link.hangUp("revoked", "this agent was revoked");
      if (boothId !== null) options.onPresence(boothId);
    },
    paired({ agentId, boothId }) {
      for (const link of linksOf(agentId)) link.hangUp("notPaired", "this agent was paired anew");
      present.expect(agentId, boothId);
      options.onPresence(boothId);
    },
    async tick() {
      const { monoMs } = clock();
      for (const link of links)
        if (isSilentTooLong(link.heardMonoMs, monoMs)) link.hangUp("silent", "three beats were missed");
      await present.save(monoMs);
    },
    async close() {
      for (const link of [...links]) link.leave();
      await commits.idle();
      await present.save(null);
      server.close();
      for (const socket of server.clients) socket.terminate();
    },
  };
}

type Refusal = { readonly status: 401 | 403; readonly error: string; readonly sentence: string };

const unknownAgent: Refusal = {
  status: 401,
  error: "notPaired",
  sentence:
    "This agent is not paired with this dashboard: make a code under Set-up and run the pair command.",
};
const revokedAgent: Refusal = {
  status: 403,
  error: "revoked",
  sentence: "This agent was revoked by the owner; it has to be paired again before it may send.",
};

function whyNot(agent: AgentRow | null): Refusal | null {
  if (agent === null) return unknownAgent;
  return agent.revokedAtMs === null ? null : revokedAgent;
}

async function agentOf(store: Store, authorization: string | undefined): Promise<AgentRow | null> {
  const token = /^Bearer ([\w~+/.-]{1,200}=*)$/i.exec(authorization ?? "")?.[1];
  return token === undefined ? null : store.agents.byTokenHash(secretHash(token));
}

/** Whether the caller runs on this computer; one that a proxy here passes on does not. */
function isFromHere({ socket, headers }: IncomingMessage): boolean {
  const address = socket.remoteAddress?.replace(/^::ffff:/, "") ?? "";
  return (address === "::1" || address.startsWith("127.")) && headers["x-forwarded-for"] === undefined;
}
