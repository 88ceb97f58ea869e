import type { Store } from "../store/openStore.ts";
import type { AgentRow } from "../store/tables.ts";
import type { BootClock } from "./bootClock.ts";

/** Whether a booth's agent is there, and what is known of its clock. */
export type Presence = {
  readonly isLinked: boolean;
  /** True time of its last frame; null: never heard. */
  readonly heardAtMs: number | null;
  /** How far its wall clock is behind true time, ms; null unknown. */
  readonly clockOffMs: number | null;
  /** When one of its items last claimed to be from the future; null: never in this boot. */
  readonly clockDoubtfulAtMs: number | null;
};

type Link = { readonly agent: AgentRow; readonly bootClock: BootClock | null };
type Agent = {
  boothId: string;
  heardAtMs: number | null;
  link: Link | null;
  lastClock: BootClock | null;
  isSaved: boolean;
};

/** What a kill may forget of when an agent was last heard. */
const saveEveryMs = 30_000;

/** Who is there: every agent that may link, by what it said last. Begins with what the store remembers. */
export async function presences(store: Store) {
  const agents = new Map<string, Agent>();
  for (const { agentId, boothId, heardAtMs } of await store.booths.agents()) {
    const [lastClock = null] = await store.agents.boots(agentId);
    agents.set(agentId, { boothId, heardAtMs, link: null, lastClock, isSaved: true });
  }
  let savedMonoMs = -Infinity;

  function heard({ agent: { agentId } }: Link, atMs: number): void {
    const agent = agents.get(agentId);
    if (agent) Object.assign(agent, { heardAtMs: atMs, isSaved: false });
  }

  return {
    heard,
    isLinked: (agentId: string) => agents.get(agentId)?.link != null,
    linked(link: Link, atMs: number): void {
      const agent = agents.get(link.agent.agentId);
      if (agent) agent.link = link;
      heard(link, atMs);
    },
    lost(link: Link): void {
      const agent = agents.get(link.agent.agentId);
      if (agent?.link === link) Object.assign(agent, { link: null, lastClock: link.bootClock });
    },
    /** An agent that may link from now on. */
    expect(agentId: string, boothId: string): void {
      agents.set(agentId, { boothId, heardAtMs: null, link: null, lastClock: null, isSaved: true });
    },
    /** An agent that may not link any more; gives the booth it stood in. */
    forget(agentId: string): string | null {
      const boothId = agents.get(agentId)?.boothId ?? null;
      agents.delete(agentId);
      return boothId;
    },
    heardAtMsOf: (agentIds: ReadonlySet<string>): (number | null)[] =>
      [...agents].flatMap(([agentId, { heardAtMs }]) => (agentIds.has(agentId) ? [heardAtMs] : [])),
    ofBooth: (boothId: string): Presence => {
      const here = [...agents.values()].filter((agent) => agent.boothId === boothId);
      here.sort((a, b) => (b.heardAtMs ?? 0) - (a.heardAtMs ?? 0));
      const latest = here[0];
      const clock = latest?.link?.bootClock ?? latest?.lastClock ?? null;
      return {
        isLinked: here.some((agent) => agent.link !== null),
        heardAtMs: latest?.heardAtMs ?? null,
        clockOffMs: clock?.wallBehindMs ?? null,
        clockDoubtfulAtMs: clock?.doubtfulAtMs ?? null,
      };
    },
    /** Writes down who was heard since the last time, at most every half minute; null: at once. */
    async save(monoMs: number | null): Promise<void> {
      if (monoMs !== null && monoMs - savedMonoMs < saveEveryMs) return;
      savedMonoMs = monoMs ?? savedMonoMs;
      const heardLately = [...agents].flatMap(([agentId, agent]) =>
        agent.isSaved || agent.heardAtMs === null ? [] : [{ agentId, heardAtMs: agent.heardAtMs }],
      );
      if (heardLately.length === 0) return;
      await store.agents.saveHeard(heardLately);
      for (const { agentId } of heardLately) Object.assign(agents.get(agentId) ?? {}, { isSaved: true });
    },
  };
}
