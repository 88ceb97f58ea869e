import type { Store } from "../store/openStore.ts";
import type { Boot } from "../store/agents.ts";
import type { AgentRow } from "../store/tables.ts";

/** What a greeting agent is told, and its boots with their clocks. */
export type Welcomed = { readonly boothName: string; readonly boots: readonly Boot[] };

/** Notes the boot and reads what is stored of the agent; null when it was revoked since the gate. */
export async function welcomeAgent(
  store: Store,
  { agentId, boothId, tokenHash }: AgentRow,
  bootId: string,
  atMs: number,
): Promise<Welcomed | null> {
  const agent = await store.agents.byTokenHash(tokenHash);
  const booth = await store.booths.byId(boothId);
  if (agent === null || agent.revokedAtMs !== null || booth === null) return null;
  await store.agents.beginBoot(agentId, bootId, atMs);
  return { boothName: booth.name, boots: await store.agents.boots(agentId) };
}
