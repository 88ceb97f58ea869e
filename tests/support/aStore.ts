import { onTestFinished } from "vitest";
import { openStore, type Store } from "../../dashboard/store/openStore.ts";
import { openSqlite } from "../../dashboard/store/sqlite.ts";
import { aBoothRow } from "./aBoothRow.ts";
import { scratchFolder } from "./scratchFolder.ts";

/** An empty store in a folder of its own, with one booth in it, closed when the test has finished. */
export async function aStore(
  dataDir = scratchFolder(),
): Promise<{ store: Store; dataDir: string; boothId: string }> {
  const store = await openStore(openSqlite(dataDir));
  onTestFinished(() => store.close());
  const booth = aBoothRow();
  const { boothId } = booth;
  if ((await store.booths.byId(boothId)) === null) await store.booths.add(booth, 0);
  return { store, dataDir, boothId };
}

/** Pairs an agent with the store's booth, without a code. */
export async function addAgent(store: Store, boothId: string, agentId = "agent-1"): Promise<void> {
  const codeHash = `code of ${agentId}`;
  const code = { codeHash, purpose: "pairing", accountId: null, boothId } as const;
  await store.oneTimeCodes.add({ ...code, createdAtMs: 0, expiresAtMs: 10 });
  const agent = { agentId, hostName: "tablet", tokenHash: `token of ${agentId}`, pairedAtMs: 0 };
  await store.oneTimeCodes.useForPairing({ codeHash, atMs: 1 }, agent);
}
