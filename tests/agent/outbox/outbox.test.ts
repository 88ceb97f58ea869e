import { readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import type { Outbox } from "../../../agent/outbox/outbox.ts";
import { type SegmentFile, openSegmentFile } from "../../../agent/outbox/segmentFile.ts";
import { keptLog } from "../../support/keptLog.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { testOutbox } from "../../support/testOutbox.ts";

/** `boot1: 1 2 3 after 0` */
function peeked(outbox: Outbox, limit = 100, sent: { bootId: string; seq: number } | null = null): string {
  const found = outbox.peek(limit, sent);
  if (!found) return "nothing";
  return `${found.bootId}: ${found.items.map((item) => item.seq).join(" ")} after ${found.afterSeq}`;
}

async function withThree(folder = scratchFolder()): Promise<Outbox> {
  const outbox = await testOutbox({ folder });
  outbox.startBoot("boot1");
  await outbox.append([aSession("a"), aWarmth(30), aSession("b")]);
  return outbox;
}

describe("outbox", () => {
  it("[I1] numbers the items of a boot from 1 in the order they were appended", async () => {
    const outbox = await withThree();
    await Promise.all([outbox.append([aSession("c")]), outbox.append([aSession("d"), aSession("e")])]);
    expect(peeked(outbox)).toBe("boot1: 1 2 3 4 5 6 after 0");
    const ids = outbox.peek(100)?.items.map((item) => item["sessionId"]);
    expect(ids).toEqual(["a", undefined, "b", "c", "d", "e"]);
  });

  it("[I1] begins at 1 again with a new boot, and sends the earlier boots first", async () => {
    const outbox = await withThree();
    outbox.startBoot("boot2");
    await outbox.append([aSession("c")]);
    expect(peeked(outbox)).toBe("boot1: 1 2 3 after 0");
    outbox.dropThrough("boot1", 3);
    expect(peeked(outbox)).toBe("boot2: 1 after 0");
  });

  it("[I1] after a restart sends what the earlier runs left under their own boots", async () => {
    const folder = scratchFolder();
    await (await withThree(folder)).close();
    const second = await testOutbox({ folder });
    second.startBoot("boot2");
    await second.append([aSession("d")]);
    await second.close();
    const third = await testOutbox({ folder });
    third.startBoot("boot3");
    await third.append([aSession("e")]);
    expect(third.boots()).toEqual(["boot1", "boot2", "boot3"]);
    expect(peeked(third)).toBe("boot1: 1 2 3 after 0");
    expect(peeked(third, 100, { bootId: "boot1", seq: 3 })).toBe("boot2: 1 after 0");
    expect(peeked(third, 100, { bootId: "boot2", seq: 1 })).toBe("boot3: 1 after 0");
    expect(peeked(third, 100, { bootId: "boot3", seq: 1 })).toBe("nothing");
  });

  it("[I2] shows an item only after the disk has said that it holds it", async () => {
    const syncs: (() => void)[] = [];
    const outbox = await testOutbox({
      folder: scratchFolder(),
      openFile: async (path): Promise<SegmentFile> => {
        const file = await openSegmentFile(path);
        return {
          ...file,
          sync: async () => {
            await new Promise<void>((resolve) => syncs.push(resolve));
            await file.sync();
          },
        };
      },
    });
    outbox.startBoot("boot1");
    let isDurable = false;
    const appended = outbox.append([aSession("a")]).then(() => (isDurable = true));
    await expect.poll(() => syncs.length).toBe(1);
    expect(peeked(outbox)).toBe("nothing");
    expect(isDurable).toBe(false);
    syncs[0]?.();
    await appended;
    expect(peeked(outbox)).toBe("boot1: 1 after 0");
  });

  it("writes what comes in during a sync as one group with one sync", async () => {
    let syncs = 0;
    const outbox = await testOutbox({
      folder: scratchFolder(),
      openFile: async (path) => {
        const file = await openSegmentFile(path);
        return { ...file, sync: () => ((syncs += 1), file.sync()) };
      },
    });
    outbox.startBoot("boot1");
    await Promise.all(Array.from({ length: 200 }, (_, i) => outbox.append([aSession(`s-${i}`)])));
    expect(outbox.peek(500)?.items).toHaveLength(200);
    expect(syncs).toBeLessThanOrEqual(2);
  });

  it("[I3] says in afterSeq which number a batch follows, whatever the limit", async () => {
    const outbox = await withThree();
    expect(peeked(outbox, 2)).toBe("boot1: 1 2 after 0");
    expect(peeked(outbox, 2, { bootId: "boot1", seq: 2 })).toBe("boot1: 3 after 2");
    outbox.dropThrough("boot1", 1);
    expect(peeked(outbox, 2)).toBe("boot1: 2 3 after 1");
  });

  it("[F2] keeps a batch far below the largest frame, and lets one fat item through alone", async () => {
    const outbox = await testOutbox({ folder: scratchFolder(), limits: { peekBytes: 1_000 } });
    outbox.startBoot("boot1");
    const fat = { ...aSession("a"), note: "x".repeat(5_000) };
    await outbox.append([fat, aSession("b"), aSession("c")]);
    expect(peeked(outbox)).toBe("boot1: 1 after 0");
    expect(peeked(outbox, 100, { bootId: "boot1", seq: 1 })).toBe("boot1: 2 3 after 1");
  });

  it("leaves an item out that no frame could carry, says so, and goes on", async () => {
    const { log, sentences } = keptLog();
    const outbox = await testOutbox({ folder: scratchFolder(), log });
    outbox.startBoot("boot1");
    const huge = { ...aSession("a"), note: "x".repeat(100_000) };
    await outbox.append([huge, aSession("b")]);
    expect(peeked(outbox)).toBe("boot1: 1 after 0");
    expect(sentences()).toContain("an item is too large and is left out");
  });

  it("[I7] drops only what was acknowledged", async () => {
    const outbox = await withThree();
    outbox.dropThrough("boot1", 2);
    expect(peeked(outbox)).toBe("boot1: 3 after 2");
    outbox.dropThrough("boot1", 1);
    expect(peeked(outbox)).toBe("boot1: 3 after 2");
  });

  it("[I7] sends acknowledged items again when the dashboard goes back", async () => {
    const outbox = await withThree();
    outbox.dropThrough("boot1", 3);
    expect(peeked(outbox)).toBe("nothing");
    outbox.rewindTo("boot1", 1);
    expect(peeked(outbox)).toBe("boot1: 2 3 after 1");
  });

  it("[I7] goes back over a restart and over boots", async () => {
    const folder = scratchFolder();
    const first = await withThree(folder);
    first.dropThrough("boot1", 3);
    await first.close();
    const second = await testOutbox({ folder });
    second.startBoot("boot2");
    await second.append([aSession("c")]);
    second.dropThrough("boot2", 1);
    second.rewindTo("boot1", 0);
    expect(peeked(second)).toBe("boot1: 1 2 3 after 0");
    expect(peeked(second, 100, { bootId: "boot1", seq: 3 })).toBe("nothing");
  });

  it("[I7] remembers over a restart what was acknowledged", async () => {
    const folder = scratchFolder();
    const first = await withThree(folder);
    first.dropThrough("boot1", 2);
    await first.close();
    expect(peeked(await testOutbox({ folder }))).toBe("boot1: 3 after 2");
  });

  it("[I7] sends everything again when the file of acknowledgements is damaged", async () => {
    const folder = scratchFolder();
    const first = await withThree(folder);
    first.dropThrough("boot1", 3);
    await first.close();
    writeFileSync(join(folder, "positions.json"), '{"acked":');
    const { log, sentences } = keptLog();
    expect(peeked(await testOutbox({ folder, log }))).toBe("boot1: 1 2 3 after 0");
    expect(sentences()).toContain("the outbox's positions cannot be read; all is sent again");
  });

  it("[I7] removes acknowledged files after their keeping time, and no others", async () => {
    const folder = scratchFolder();
    let wallMs = Date.UTC(2026, 5, 20);
    const outbox = await testOutbox({
      folder,
      clock: () => ({ wallMs, monoMs: 0 }),
      limits: { segmentBytes: 1, keepAckedMs: 3_600_000 },
    });
    outbox.startBoot("boot1");
    for (const id of ["a", "b", "c"]) await outbox.append([aSession(id)]);
    outbox.dropThrough("boot1", 2);
    wallMs += 3_500_000;
    await outbox.append([aSession("d")]);
    outbox.rewindTo("boot1", 0);
    expect(peeked(outbox)).toBe("boot1: 1 2 3 4 after 0");
    outbox.dropThrough("boot1", 2);
    wallMs += 200_000;
    await outbox.append([aSession("e")]);
    outbox.rewindTo("boot1", 0);
    await expect.poll(() => peeked(outbox)).toBe("boot1: 3 4 5 after 0");
  });

  it("has the last mark again after a restart, also when the item that carried it is gone", async () => {
    const folder = scratchFolder();
    const limits = { segmentBytes: 1, keepAckedBytes: 0 };
    const first = await testOutbox({ folder, limits });
    first.startBoot("boot1");
    await first.append([{ ...aSession("a"), mark: "line 1" }]);
    await first.append([{ ...aSession("b"), mark: "line 2" }]);
    first.dropThrough("boot1", 2);
    await first.append([aSession("c")]);
    await expect.poll(() => first.stats().segments).toBe(1);
    await first.close();
    expect((await testOutbox({ folder })).mark).toBe("line 2");
  });

  it("refuses to append before the first boot, and after closing", async () => {
    const outbox = await testOutbox({ folder: scratchFolder() });
    await expect(outbox.append([aSession("a")])).rejects.toThrow("append before startBoot");
    await outbox.close();
    await expect(outbox.append([aSession("a")])).rejects.toThrow("the outbox is closed");
  });

  it("refuses a boot id that could not be a file name", async () => {
    const outbox = await testOutbox({ folder: scratchFolder() });
    expect(() => outbox.startBoot("../x")).toThrow('bootId must be a UUID, got "../x"');
  });

  it("leaves other files in its folder alone", async () => {
    const folder = scratchFolder();
    writeFileSync(join(folder, "note.txt"), "mine");
    await withThree(folder);
    expect(readdirSync(folder)).toContain("note.txt");
  });
});
