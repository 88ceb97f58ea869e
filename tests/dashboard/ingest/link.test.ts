import { copyFileSync } from "node:fs";
import { join } from "node:path";
import { maxFrameBytes, protocolVersion } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import * as z from "zod";
import { addBooth, aDashboard, anOwner, pairAgent, type ADashboard } from "../../support/aDashboard.ts";
import { aGreetedLink, aLinkClient, sentSession, sentWarmth } from "../../support/aLinkClient.ts";
import { changeStore, readStore, storedItems } from "../../support/readStore.ts";

async function aPairedBooth() {
  const dashboard = await aDashboard();
  const api = await anOwner(dashboard);
  const boothId = await addBooth(api);
  const token = await pairAgent(api, boothId);
  return { dashboard, api, boothId, token };
}

const seqsIn = (dashboard: ADashboard) => storedItems(dashboard.dataDir).map(({ seq }) => seq);
const logged = (dashboard: ADashboard, words: string) =>
  dashboard.lines.filter((line) => line.includes(words)).length;

describe("opening a link", () => {
  it.each([
    ["no token", null],
    ["a token nobody was given", "0123456789abcdefghij"],
  ])("[L1] refuses %s with 401 and one log line", async (_what, token) => {
    const dashboard = await aDashboard();
    await expect(aLinkClient(dashboard.url, token)).rejects.toThrow("401");
    expect(logged(dashboard, "link refused")).toBe(1);
  });

  it("[L2] closes with 4400 when the first frame is not a greeting", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aLinkClient(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1)]);
    expect(await link.closed()).toBe(4400);
    expect((await link.next("refused")).reason).toContain("greet");
    expect(seqsIn(dashboard)).toEqual([]);
  });

  it("[L2] takes an unknown kind for no greeting", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aLinkClient(dashboard.url, token);
    link.send({ kind: "hail" });
    expect(await link.closed()).toBe(4400);
  });

  it("[L3] closes with 4426 on another version and names both, whatever else that greeting holds", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aLinkClient(dashboard.url, token);
    link.send({ kind: "greet", protocol: 7, somethingNew: true });
    expect(await link.closed()).toBe(4426);
    const { reason } = await link.next("refused");
    expect(reason).toContain("version 7");
    expect(reason).toContain(`version ${protocolVersion}`);
  });

  it("[L4] welcomes with the booth and what is stored of each boot", async () => {
    const { dashboard, boothId, token } = await aPairedBooth();
    const first = await aGreetedLink(dashboard.url, token);
    first.batch("boot-0", 0, [sentSession(1), sentSession(2)]);
    first.batch("boot-1", 0, [sentSession(3)]);
    await first.next("ack");
    await first.next("ack");
    const second = await aLinkClient(dashboard.url, token);
    second.greet({ bootId: "boot-2" });
    const welcome = await second.next("welcome");
    expect(welcome).toMatchObject({ boothId, boothName: "Juniper", t1MonoMs: 0 });
    expect(new Map(welcome.stored.map(({ bootId, throughSeq }) => [bootId, throughSeq]))).toEqual(
      new Map([
        ["boot-0", 2],
        ["boot-1", 3],
        ["boot-2", 0],
      ]),
    );
  });

  it("[L5] closes the first link with 4409 when the agent opens a second", async () => {
    const { dashboard, token } = await aPairedBooth();
    const first = await aGreetedLink(dashboard.url, token);
    const second = await aGreetedLink(dashboard.url, token);
    expect(await first.closed()).toBe(4409);
    second.batch("boot-1", 0, [sentSession(1)]);
    expect((await second.next("ack")).throughSeq).toBe(1);
  });

  it("[L6] closes a revoked agent with 4403, stores nothing more of it, and refuses it with 403", async () => {
    const { dashboard, api, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    await api.post("/api/agents/agent-1/revoke", {}, z.unknown());
    link.batch("boot-1", 0, [sentSession(1)]);
    expect(await link.closed()).toBe(4403);
    await expect(aLinkClient(dashboard.url, token)).rejects.toThrow("403");
    expect(seqsIn(dashboard)).toEqual([]);
  });

  it("closes with 4401 when the greeting names another agent than the token's", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aLinkClient(dashboard.url, token);
    link.greet({ agentId: "agent-2" });
    expect(await link.closed()).toBe(4401);
    expect((await link.next("refused")).field).toBe("agentId");
  });

  it("lets an agent that is paired anew in with its new token only", async () => {
    const { dashboard, api, boothId, token } = await aPairedBooth();
    const old = await aGreetedLink(dashboard.url, token);
    const newToken = await pairAgent(api, boothId);
    expect(await old.closed()).toBe(4401);
    await expect(aLinkClient(dashboard.url, token)).rejects.toThrow("401");
    await aGreetedLink(dashboard.url, newToken);
  });
});

describe("items", () => {
  it("[I1] stores the items of each boot by their own numbers", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1), sentSession(2)]);
    link.batch("boot-2", 0, [sentSession(1, { sessionId: "another" })]);
    await link.next("ack");
    await link.next("ack");
    expect(storedItems(dashboard.dataDir)).toMatchObject([
      { bootId: "boot-1", seq: 1 },
      { bootId: "boot-1", seq: 2 },
      { bootId: "boot-2", seq: 1 },
    ]);
  });

  it("[I3] takes missing numbers within a batch for thinned readings", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentWarmth(4, 21), sentSession(9)]);
    expect((await link.next("ack")).throughSeq).toBe(9);
    link.batch("boot-1", 9, [sentSession(10)]);
    expect((await link.next("ack")).throughSeq).toBe(10);
    expect(seqsIn(dashboard)).toEqual([4, 9, 10]);
  });

  it("[I4] a transaction that fails gives no ack, and the batch is stored once when it is sent again", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    changeStore(dashboard.dataDir, "alter table reading rename to lost");
    link.batch("boot-1", 0, [sentSession(1), sentWarmth(2, 21)]);
    expect(await link.closed()).toBe(1011);
    expect(link.frames.filter(({ kind }) => kind === "ack")).toEqual([]);
    changeStore(dashboard.dataDir, "alter table lost rename to reading");
    const again = await aGreetedLink(dashboard.url, token);
    again.batch("boot-1", 0, [sentSession(1), sentWarmth(2, 21)]);
    expect((await again.next("ack")).throughSeq).toBe(2);
    expect(seqsIn(dashboard)).toEqual([1, 2]);
  });

  it("[I5] a batch resent after a lost ack stores nothing twice", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    const items = [sentSession(1), sentWarmth(2, 21), sentSession(3)];
    link.batch("boot-1", 0, items);
    await link.next("ack");
    const again = await aGreetedLink(dashboard.url, token);
    again.batch("boot-1", 0, [...items, sentSession(4)]);
    expect((await again.next("ack")).throughSeq).toBe(4);
    expect(seqsIn(dashboard)).toEqual([1, 2, 3, 4]);
  });

  it("[I5] acknowledges a batch of which everything is stored", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1), sentSession(2)]);
    link.batch("boot-1", 0, [sentSession(1)]);
    expect((await link.next("ack")).throughSeq).toBe(2);
    expect((await link.next("ack")).throughSeq).toBe(2);
  });

  it("[I6] answers a batch that does not follow with resend and stores nothing of it", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1)]);
    link.batch("boot-1", 2, [sentSession(3)]);
    expect(await link.next("resend")).toMatchObject({ bootId: "boot-1", afterSeq: 1 });
    expect(seqsIn(dashboard)).toEqual([1]);
  });

  it("[I7] a dashboard restored from a backup says the older number and takes the items again", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1)]);
    await link.next("ack");
    const backedUp = join(dashboard.dataDir, "backup.db");
    await dashboard.close();
    copyFileSync(join(dashboard.dataDir, "boothward.db"), backedUp);

    const later = await dashboard.reopen();
    const second = await aGreetedLink(later.url, token);
    second.batch("boot-1", 1, [sentSession(2), sentSession(5)]);
    await second.next("ack");
    await later.close();
    copyFileSync(backedUp, join(dashboard.dataDir, "boothward.db"));

    const restored = await later.reopen();
    const third = await aLinkClient(restored.url, token);
    third.greet({ lastSeq: 5 });
    expect((await third.next("welcome")).stored).toEqual([{ bootId: "boot-1", throughSeq: 1 }]);
    third.batch("boot-1", 1, [sentSession(2), sentSession(5)]);
    expect((await third.next("ack")).throughSeq).toBe(5);
    expect(seqsIn(restored)).toEqual([1, 2, 5]);
  });

  it("[I9] keeps an item of an unknown kind whole and acknowledges it", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    const item = { ...sentSession(1), kind: "balloons", balloons: { red: 3 } };
    link.batch("boot-1", 0, [item]);
    expect((await link.next("ack")).throughSeq).toBe(1);
    const [row] = readStore(dashboard.dataDir, `select body from fact`, z.object({ body: z.string() }));
    expect(JSON.parse(row?.body ?? "null")).toEqual(item);
  });

  it("[I9] keeps an item with a wrong field aside, names the field, and lets those behind it pass", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    const wrong = { ...sentWarmth(1, 21), insideC: "warm" };
    link.batch("boot-1", 0, [wrong, sentSession(2)]);
    expect((await link.next("ack")).throughSeq).toBe(2);
    expect(seqsIn(dashboard)).toEqual([2]);
    const row = z.object({ seq: z.number(), field: z.string(), body: z.string() });
    const [aside] = readStore(dashboard.dataDir, `select seq, field, body from keptAside`, row);
    expect(aside).toMatchObject({ seq: 1, field: "insideC" });
    expect(JSON.parse(aside?.body ?? "null")).toEqual(wrong);
    expect(logged(dashboard, "kept aside")).toBe(1);
  });

  it("stores a print or session whose own id the booth has had before once, and acknowledges it", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1), sentSession(2, { sessionId: "session-1" })]);
    expect((await link.next("ack")).throughSeq).toBe(2);
    link.batch("boot-2", 0, [sentSession(1)]);
    expect((await link.next("ack")).throughSeq).toBe(1);
    expect(storedItems(dashboard.dataDir)).toMatchObject([{ bootId: "boot-1", seq: 1 }]);
  });
});

describe("frames", () => {
  it.each([
    ["is not JSON", "{", null],
    ["has no kind", JSON.stringify({ hello: 1 }), "kind"],
    ["has a wrong field", JSON.stringify({ kind: "beat", t1MonoMs: "soon", sample: null }), "t1MonoMs"],
    ["is a list", "[]", null],
  ])("[F1] a frame that %s is refused with its field and closes with 4400", async (_what, text, field) => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, [sentSession(1)]);
    await link.next("ack");
    link.sendRaw(text);
    expect(await link.closed()).toBe(4400);
    expect((await link.next("refused")).field).toBe(field);
    expect(logged(dashboard, "link hung up")).toBe(1);
    expect(seqsIn(dashboard)).toEqual([1]);
  });

  it("[F1] a binary frame is refused", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.sendRaw(Buffer.from("{}"));
    expect(await link.closed()).toBe(4400);
  });

  it("[F1] a batch without items, or with too many, names the field", async () => {
    const { dashboard, token } = await aPairedBooth();
    for (const items of [[], Array.from({ length: 501 }, (_, at) => sentWarmth(at + 1, 20))]) {
      const link = await aGreetedLink(dashboard.url, token);
      link.batch("boot-1", 0, items);
      expect(await link.closed()).toBe(4400);
      expect((await link.next("refused")).field).toBe("items");
    }
  });

  it("[F2] a frame over the limit closes with 1009, one log line, and other links go on", async () => {
    const { dashboard, api, token } = await aPairedBooth();
    const otherToken = await pairAgent(api, await addBooth(api, "Sorrel"), "agent-2");
    const other = await aGreetedLink(dashboard.url, otherToken, { agentId: "agent-2" });
    const link = await aGreetedLink(dashboard.url, token);
    link.sendRaw(JSON.stringify({ kind: "batch", padding: "x".repeat(maxFrameBytes) }));
    expect(await link.closed()).toBe(1009);
    expect(logged(dashboard, "link broken")).toBe(1);
    other.batch("boot-1", 0, [sentSession(1)]);
    expect((await other.next("ack")).throughSeq).toBe(1);
  });

  it("[F3] passes over a frame of an unknown kind with a log line", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.send({ kind: "farewell", mood: "fine" });
    link.batch("boot-1", 0, [sentSession(1)]);
    expect((await link.next("ack")).throughSeq).toBe(1);
    expect(logged(dashboard, "passed over")).toBe(1);
  });

  it.each([
    ["fall", [sentSession(2), sentSession(1)], "items.1.seq"],
    ["repeat", [sentSession(1), sentSession(1)], "items.1.seq"],
  ])("[F4] a batch whose numbers %s is refused and nothing of it is stored", async (_how, items, field) => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 0, items);
    expect(await link.closed()).toBe(4400);
    expect((await link.next("refused")).field).toBe(field);
    expect(seqsIn(dashboard)).toEqual([]);
  });

  it("[F4] a batch that begins at or below the number it follows is refused", async () => {
    const { dashboard, token } = await aPairedBooth();
    const link = await aGreetedLink(dashboard.url, token);
    link.batch("boot-1", 3, [sentSession(3)]);
    expect(await link.closed()).toBe(4400);
    expect((await link.next("refused")).field).toBe("items.0.seq");
  });
});

it("never logs a token, a password, a code or a cookie", async () => {
  const { dashboard, api, token } = await aPairedBooth();
  const link = await aGreetedLink(dashboard.url, token);
  link.batch("boot-1", 0, [{ ...sentSession(1), layouts: -1 }]);
  await link.next("ack");
  link.sendRaw(`{"authorization":"Bearer ${token}"}`);
  await link.closed();
  await expect(aLinkClient(dashboard.url, `${token}x`)).rejects.toThrow("401");
  const secrets = [token, api.cookie().split("=")[1] ?? "", dashboard.firstRunUrl?.split("=")[1] ?? ""];
  const all = dashboard.lines.join("");
  expect(all.length).toBeGreaterThan(200);
  for (const secret of secrets) {
    expect(secret.length).toBeGreaterThan(10);
    expect(all).not.toContain(secret);
  }
});
