import { describe, expect, it } from "vitest";
import type { Outbox } from "../../../agent/outbox/outbox.ts";
import { keptLog } from "../../support/keptLog.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { testOutbox } from "../../support/testOutbox.ts";

const limits = { maxBytes: 20_000, segmentBytes: 1_000 };

type Content = { sessions: string[]; warmths: number[]; thinned: number };

/** What is left to send. */
function contentOf(outbox: Outbox): Content {
  const items = outbox.peek(10_000)?.items ?? [];
  return {
    sessions: items.flatMap((item) => (item.kind === "session" ? [String(item["sessionId"])] : [])),
    warmths: items.flatMap((item) => (item.kind === "inside" ? [Number(item["insideC"])] : [])),
    thinned: items.reduce((sum, item) => sum + (item.kind === "thinned" ? Number(item["readings"]) : 0), 0),
  };
}

describe("a full outbox", () => {
  it("[I8] lets go of the oldest readings, of no fact, and says how many", async () => {
    const { log, sentences } = keptLog();
    const outbox = await testOutbox({ folder: scratchFolder(), limits, log });
    outbox.startBoot("boot1");
    for (let i = 0; i < 200; i++)
      await outbox.append(i % 10 === 0 ? [aSession(`s-${i}`)] : [aWarmth(i / 10)]);
    await outbox.append([aSession("last")]);
    const { sessions, warmths, thinned } = contentOf(outbox);
    expect(sessions).toEqual([...Array.from({ length: 20 }, (_, i) => `s-${i * 10}`), "last"]);
    expect(thinned).toBe(180 - warmths.length);
    expect(thinned).toBeGreaterThan(50);
    expect(warmths[0]).toBeGreaterThan(5);
    expect(warmths.at(-1)).toBe(19.9);
    expect(outbox.stats().bytes).toBeLessThan(limits.maxBytes + limits.segmentBytes);
    expect(sentences()).toContain("the outbox is full: the oldest readings were let go of");
  });

  it("[I7] lets go of acknowledged items before any that is not", async () => {
    const outbox = await testOutbox({ folder: scratchFolder(), limits });
    outbox.startBoot("boot1");
    for (let i = 0; i < 60; i++) await outbox.append([aWarmth(i)]);
    outbox.dropThrough("boot1", 50);
    for (let i = 60; i < 100; i++) await outbox.append([aWarmth(i)]);
    const { warmths, thinned } = contentOf(outbox);
    expect(warmths).toEqual(Array.from({ length: 50 }, (_, i) => i + 50));
    expect(thinned).toBe(0);
  });

  it("[I8] keeps every fact when there are nothing but facts, and takes no more readings", async () => {
    const { log, sentences } = keptLog();
    const outbox = await testOutbox({ folder: scratchFolder(), limits, log });
    outbox.startBoot("boot1");
    const ids = Array.from({ length: 150 }, (_, i) => `s-${i}`);
    for (const id of ids) await outbox.append([aSession(id)]);
    for (let i = 0; i < 7; i++) await outbox.append([aWarmth(i)]);
    await outbox.append([aSession("last")]);
    expect(contentOf(outbox)).toEqual({ sessions: [...ids, "last"], warmths: [], thinned: 7 });
    expect(sentences()).toContain("the outbox is full of facts: no readings are kept");
  });

  it("[I8] takes readings again when the dashboard has taken the facts", async () => {
    const outbox = await testOutbox({ folder: scratchFolder(), limits });
    outbox.startBoot("boot1");
    for (let i = 0; i < 150; i++) await outbox.append([aSession(`s-${i}`)]);
    outbox.dropThrough("boot1", 150);
    await expect.poll(() => outbox.stats().bytes).toBeLessThan(limits.maxBytes);
    await outbox.append([aWarmth(31)]);
    expect(contentOf(outbox).warmths).toEqual([31]);
  });

  it("[I3] numbers on after thinning, and leaves the gap in the batch", async () => {
    const outbox = await testOutbox({ folder: scratchFolder(), limits });
    outbox.startBoot("boot1");
    for (let i = 0; i < 200; i++) await outbox.append([i === 0 ? aSession("first") : aWarmth(i)]);
    const peeked = outbox.peek(10_000);
    expect(peeked?.afterSeq).toBe(0);
    expect(peeked?.items[0]?.seq).toBe(1);
    expect(peeked?.items[1]?.seq).toBeGreaterThan(10);
    // The thinned facts take numbers too.
    expect(outbox.stats().lastSeq).toBeGreaterThan(200);
  });

  it("has the thinned files as they are after a restart", async () => {
    const folder = scratchFolder();
    const first = await testOutbox({ folder, limits });
    first.startBoot("boot1");
    for (let i = 0; i < 200; i++) await first.append(i % 10 === 0 ? [aSession(`s-${i}`)] : [aWarmth(i / 10)]);
    const before = contentOf(first);
    await first.close();
    expect(contentOf(await testOutbox({ folder, limits }))).toEqual(before);
  });
});
