import { describe, expect, it } from "vitest";
import type { NewCode } from "../../../dashboard/store/oneTimeCodes.ts";
import { addAgent, aStore } from "../../support/aStore.ts";

const account = { accountId: "ama", name: "Ama", passwordHash: "scrypt$", createdAtMs: 0 };
const signIn = { tokenHash: "t", accountId: "ama", createdAtMs: 0, expiresAtMs: 100 };
const code: NewCode = {
  ...{ codeHash: "c", purpose: "firstRun" as const, accountId: null, boothId: null },
  ...{ createdAtMs: 0, expiresAtMs: 50 },
};

describe("one-time codes", () => {
  it("are good once", async () => {
    const { store } = await aStore();
    await store.oneTimeCodes.add(code);
    const asked = { codeHash: "c", atMs: 10 };
    expect(await store.oneTimeCodes.useForFirstAccount(asked, account, signIn)).toEqual({ account });
    expect(await store.oneTimeCodes.useForFirstAccount(asked, account, signIn)).toEqual({
      refused: "usedCode",
    });
  });

  it("are refused when unknown, when too old, and for another purpose", async () => {
    const { store } = await aStore();
    await store.oneTimeCodes.add(code);
    const check = (asked: Parameters<typeof store.oneTimeCodes.check>[0]) => store.oneTimeCodes.check(asked);
    expect(await check({ codeHash: "c", purpose: "firstRun", atMs: 49 })).toBeNull();
    expect(await check({ codeHash: "c", purpose: "firstRun", atMs: 50 })).toBe("expiredCode");
    expect(await check({ codeHash: "c", purpose: "signIn", atMs: 10 })).toBe("wrongCode");
    expect(await check({ codeHash: "d", purpose: "firstRun", atMs: 10 })).toBe("wrongCode");
  });

  it("are not used up when what they were for fails", async () => {
    const { store } = await aStore();
    await store.oneTimeCodes.add(code);
    const asked = { codeHash: "c", atMs: 10 };
    const ofNobody = { ...signIn, accountId: "nobody" };
    await expect(store.oneTimeCodes.useForFirstAccount(asked, account, ofNobody)).rejects.toThrow();
    expect(await store.oneTimeCodes.check({ ...asked, purpose: "firstRun" })).toBeNull();
    expect(await store.accounts.isEmpty()).toBe(true);
  });

  it("of a first run are replaced at the next start", async () => {
    const { store } = await aStore();
    await store.oneTimeCodes.replaceFirstRun(code);
    await store.oneTimeCodes.replaceFirstRun({ ...code, codeHash: "later" });
    const asked = { purpose: "firstRun", atMs: 1 } as const;
    expect(await store.oneTimeCodes.check({ ...asked, codeHash: "c" })).toBe("wrongCode");
    expect(await store.oneTimeCodes.check({ ...asked, codeHash: "later" })).toBeNull();
  });

  it("let a revoked agent in again when it is paired anew", async () => {
    const { store, boothId } = await aStore();
    await addAgent(store, boothId);
    expect(await store.agents.revoke("agent-1", 5)).toBe(true);
    expect(await store.agents.revoke("agent-1", 6)).toBe(false);
    expect(await store.booths.agents()).toEqual([]);
    await store.oneTimeCodes.add({ ...code, codeHash: "again", purpose: "pairing", boothId });
    const agent = { agentId: "agent-1", hostName: "tablet", tokenHash: "new", pairedAtMs: 7 };
    await store.oneTimeCodes.useForPairing({ codeHash: "again", atMs: 7 }, agent);
    expect(await store.agents.byTokenHash("new")).toMatchObject({ revokedAtMs: null, boothId });
    expect(await store.agents.byTokenHash("token of agent-1")).toBeNull();
  });
});
