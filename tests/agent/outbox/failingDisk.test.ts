import { describe, expect, it } from "vitest";
import { type OpenSegmentFile, openSegmentFile } from "../../../agent/outbox/segmentFile.ts";
import { keptLog } from "../../support/keptLog.ts";
import { aSession, aWarmth } from "../../support/outboxItems.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";
import { testOutbox } from "../../support/testOutbox.ts";

/** A disk that can be made to refuse: `append` writes half and says it is full, `sync` fails. */
function failingDisk(): { openFile: OpenSegmentFile; fails: "open" | "append" | "sync" | null } {
  const disk: ReturnType<typeof failingDisk> = {
    fails: null,
    openFile: async (path) => {
      if (disk.fails === "open") throw new Error("EMFILE: too many open files");
      const file = await openSegmentFile(path);
      return {
        ...file,
        async append(bytes) {
          if (disk.fails !== "append") return file.append(bytes);
          await file.append(bytes.subarray(0, bytes.length / 2));
          throw new Error("ENOSPC: no space left on device, write");
        },
        sync: () => (disk.fails === "sync" ? Promise.reject(new Error("EIO: i/o error")) : file.sync()),
      };
    },
  };
  return disk;
}

/** Waiting for the disk, let go on by the test. */
function heldWaits(): { wait: (ms: number) => Promise<void>; waits: number[]; goOn: () => void } {
  const waits: number[] = [];
  let resolves: (() => void)[] = [];
  return {
    waits,
    wait: (ms) => (waits.push(ms), new Promise<void>((resolve) => resolves.push(resolve))),
    goOn: () => {
      for (const resolve of resolves) resolve();
      resolves = [];
    },
  };
}

describe("an outbox whose disk takes nothing", () => {
  it.each(["open", "append", "sync"] as const)(
    "says it once when %s fails, tries again, and loses nothing",
    async (fails) => {
      const folder = scratchFolder();
      const disk = failingDisk();
      const { log, lines } = keptLog();
      const { wait, waits, goOn } = heldWaits();
      const outbox = await testOutbox({ folder, openFile: disk.openFile, wait, log });
      outbox.startBoot("boot1");
      await outbox.append([aSession("a")]);
      disk.fails = fails;
      // An open file is not opened again: only a new boot needs a new one.
      outbox.startBoot("boot2");
      const appended = outbox.append([aSession("b"), aSession("c")]);
      await expect.poll(() => waits).toEqual([1_000]);
      goOn();
      await expect.poll(() => waits).toEqual([1_000, 2_000]);
      expect(outbox.stats().fault).not.toBeNull();
      expect(outbox.peek(10, { bootId: "boot1", seq: 1 })).toBeNull();
      disk.fails = null;
      goOn();
      await appended;
      expect(lines.map(({ level }) => level)).toEqual(["error", "info"]);
      await outbox.close();
      const again = await testOutbox({ folder });
      expect(again.peek(10, { bootId: "boot1", seq: 1 })?.items.map((item) => item.seq)).toEqual([1, 2]);
      expect(again.stats().damagedBytes).toBe(0);
    },
  );

  it("waits longer each time, up to half a minute", async () => {
    const disk = failingDisk();
    const { wait, waits, goOn } = heldWaits();
    const outbox = await testOutbox({ folder: scratchFolder(), openFile: disk.openFile, wait });
    outbox.startBoot("boot1");
    disk.fails = "append";
    const appended = outbox.append([aSession("a")]);
    for (let tries = 1; tries <= 7; tries++) {
      await expect.poll(() => waits.length).toBe(tries);
      if (tries === 7) disk.fails = null;
      goOn();
    }
    await appended;
    expect(waits).toEqual([1_000, 2_000, 4_000, 8_000, 16_000, 30_000, 30_000]);
  });

  it("[I8] holds a bounded part in memory meanwhile: facts all, readings the newest", async () => {
    const disk = failingDisk();
    const { wait, waits, goOn } = heldWaits();
    const limits = { waitingBytes: 10_000 };
    const outbox = await testOutbox({ folder: scratchFolder(), openFile: disk.openFile, wait, limits });
    outbox.startBoot("boot1");
    disk.fails = "sync";
    const appends = [outbox.append([aSession("a")])];
    await expect.poll(() => waits.length).toBe(1);
    for (let i = 0; i < 200; i++) appends.push(outbox.append([aWarmth(i / 10)]));
    appends.push(outbox.append([aSession("b")]));
    disk.fails = null;
    goOn();
    await Promise.all(appends);
    const items = outbox.peek(1_000)?.items ?? [];
    const warmths = items.filter((item) => item.kind === "inside");
    const thinned = items.find((item) => item.kind === "thinned");
    expect(items.filter((item) => item.kind === "session")).toHaveLength(2);
    expect(warmths.length).toBeLessThan(60);
    expect(warmths.at(-1)?.["insideC"]).toBe(19.9);
    expect(thinned?.["readings"]).toBe(200 - warmths.length);
  });

  it("makes room of what is acknowledged when the disk is full", async () => {
    const disk = failingDisk();
    const limits = { segmentBytes: 1 };
    const outbox = await testOutbox({
      folder: scratchFolder(),
      openFile: disk.openFile,
      limits,
      wait: () => ((disk.fails = null), Promise.resolve()),
    });
    outbox.startBoot("boot1");
    for (const id of ["a", "b", "c"]) await outbox.append([aSession(id)]);
    outbox.dropThrough("boot1", 3);
    disk.fails = "append";
    await outbox.append([aSession("d")]);
    outbox.rewindTo("boot1", 0);
    expect(outbox.peek(10)?.items.map((item) => item.seq)).toEqual([4]);
  });

  it("rejects what it could not write when it is closed", async () => {
    const disk = failingDisk();
    const { wait, waits } = heldWaits();
    const outbox = await testOutbox({ folder: scratchFolder(), openFile: disk.openFile, wait });
    outbox.startBoot("boot1");
    disk.fails = "append";
    const appended = outbox.append([aSession("a")]);
    const refused = expect(appended).rejects.toThrow("not written before closing: ENOSPC");
    await expect.poll(() => waits.length).toBe(1);
    await outbox.close();
    await refused;
  });
});
