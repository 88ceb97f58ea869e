import { appendFile, mkdir, rename, rm, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { beforeEach, describe, expect, test } from "vitest";
import { picture, settleMs, watchedFolder } from "../../support/watchedFolder.ts";
import { until } from "../../support/until.ts";

const folder = watchedFolder();

describe("a folder of finished layouts", () => {
  beforeEach(() => mkdir(folder.layouts));

  test("one settled file is one session", async () => {
    await folder.watch();
    await folder.put("a.jpg");
    await folder.settle();
    expect(folder.sessions()).toMatchObject([
      { class: "fact", kind: "session", basis: "layouts", layouts: 1, shots: null, durationMs: null },
    ]);
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("files from before the first start are not sessions", async () => {
    await folder.put("old.jpg");
    await folder.watch();
    await folder.put("new.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a file that is still growing is waited for", async () => {
    await folder.watch();
    await folder.put("slow.jpg");
    for (let part = 0; part < 4; part += 1) {
      await folder.aLook();
      folder.hand.pass(settleMs - 100);
      await appendFile(join(folder.layouts, "slow.jpg"), picture);
      await folder.aLook();
      expect(folder.sessions()).toEqual([]);
    }
    folder.hand.pass(settleMs);
    await folder.aLook();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a file that grows up under a working name and is then renamed counts once", async () => {
    await folder.watch();
    await folder.put("a.jpg.part");
    await folder.settle();
    expect(folder.sessions()).toEqual([]);
    await rename(join(folder.layouts, "a.jpg.part"), join(folder.layouts, "a.jpg"));
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a counted file that is renamed does not count again", async () => {
    await folder.watch();
    await folder.put("a.jpg");
    await folder.settle();
    await rename(join(folder.layouts, "a.jpg"), join(folder.layouts, "table 4.jpg"));
    await folder.settle();
    await folder.put("b.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(2);
  });

  test("a burst of files counts each", async () => {
    await folder.watch();
    await Promise.all(Array.from({ length: 40 }, (_, i) => folder.put(`burst-${i}.png`)));
    await folder.settle();
    expect(folder.sessions()).toHaveLength(40);
    expect(new Set(folder.sessions().map((session) => session.sessionId)).size).toBe(40);
  });

  test("by-products, small files, folders and other kinds of file do not count", async () => {
    await folder.watch();
    await folder.put("IMG_1_thumb.jpg");
    await folder.put("preview-1.jpg");
    await folder.put(".hidden.jpg");
    await folder.put("~a.jpg");
    await folder.put("notes.txt");
    await folder.put("jpg");
    await folder.put("stub.jpg", Buffer.alloc(20_000));
    await mkdir(join(folder.layouts, "inner.jpg"));
    await folder.put("party at smallwood.JPG");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a stub that becomes a picture later counts then", async () => {
    await folder.watch();
    await folder.put("a.jpg", Buffer.alloc(0));
    await folder.settle();
    expect(folder.sessions()).toEqual([]);
    await folder.put("a.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a counted file that is saved again does not count again", async () => {
    await folder.watch();
    await folder.put("a.jpg");
    await folder.settle();
    await folder.put("a.jpg", Buffer.alloc(50_000, 9));
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("a restart neither repeats nor misses", async () => {
    await folder.watch();
    await folder.put("a.jpg");
    await folder.settle();
    const [first] = folder.sessions();
    await folder.source().close();
    await folder.put("b.jpg");
    folder.hand.pass(600_000);
    await folder.watch();
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
    expect(folder.sessions()[0]?.sessionId).not.toBe(first?.sessionId);
    const [late] = folder.source().sourceItems("session");
    // It was finished when it was written, ten minutes ago, not when it was found.
    expect(late?.agoMs).toBeGreaterThan(590_000);
  });

  test("what the outbox could not keep is told again with the same id", async () => {
    await folder.watch();
    folder.isKept = false;
    await folder.put("a.jpg");
    await folder.settle();
    expect(folder.sessions()).toEqual([]);
    folder.isKept = true;
    await folder.aLook();
    expect(folder.sessions()).toHaveLength(1);
    expect(JSON.stringify(folder.source().refused)).toContain(folder.sessions()[0]?.sessionId);
  });

  test("a folder that is deleted is not found, and read again when it is made again", async () => {
    await folder.watch();
    await folder.put("0001.jpg");
    await folder.settle();
    await rm(folder.layouts, { recursive: true });
    await until(() => folder.source().fault() === "notFound", "the folder is missed");
    await mkdir(folder.layouts);
    await until(() => folder.source().fault() === null, "the folder is back");
    await folder.put("0002.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(2);
  });

  test("numbering that begins again in a folder made anew counts anew", async () => {
    await folder.watch();
    await folder.put("0001.jpg");
    await folder.settle();
    await rm(folder.layouts, { recursive: true });
    await until(() => folder.source().fault() === "notFound", "the folder is missed");
    await mkdir(folder.layouts);
    await folder.put("0001.jpg");
    const later = new Date(Date.now() + 60_000);
    await utimes(join(folder.layouts, "0001.jpg"), later, later);
    await until(() => folder.source().fault() === null, "the folder is back");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(2);
  });
});

test("numbering that begins again in a folder that was taken away and brought back counts anew", async () => {
  await mkdir(folder.layouts);
  await folder.watch();
  await folder.put("0001.jpg");
  await folder.settle();
  const away = folder.in("away");
  await rename(folder.layouts, away);
  await until(() => folder.source().fault() === "notFound", "the folder is missed");
  await rm(join(away, "0001.jpg"));
  await writeFile(join(away, "0001.jpg"), picture);
  const later = new Date(Date.now() + 60_000);
  await utimes(join(away, "0001.jpg"), later, later);
  await rename(away, folder.layouts);
  await until(() => folder.source().fault() === null, "the folder is back");
  await folder.settle();
  expect(folder.sessions()).toHaveLength(2);
});

describe("a folder that is not there", () => {
  test("is not found, and what is put into it once it is made counts", async () => {
    await folder.watch();
    expect(folder.source().fault()).toBe("notFound");
    await mkdir(folder.layouts);
    await until(() => folder.source().fault() === null, "the folder is read");
    await folder.put("a.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("brings old pictures with it when it appears, and those are not sessions", async () => {
    await folder.watch();
    const drive = folder.in("drive");
    await mkdir(drive);
    await writeFile(join(drive, "last-year.jpg"), picture);
    const longAgo = new Date(Date.now() - 86_400_000);
    await utimes(join(drive, "last-year.jpg"), longAgo, longAgo);
    await rename(drive, folder.layouts);
    await until(() => folder.source().fault() === null, "the folder is read");
    await folder.put("a.jpg");
    await folder.settle();
    expect(folder.sessions()).toHaveLength(1);
  });

  test("is a file by mistake, and says so", async () => {
    await writeFile(folder.layouts, "");
    await folder.watch();
    expect(folder.source().fault()).toBe("notFound");
  });
});
