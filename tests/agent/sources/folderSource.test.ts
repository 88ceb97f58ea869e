import { appendFile, mkdir, rename, rm, utimes, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { folderSource } from "../../../agent/sources/folderSource.ts";
import { folderSourceConfig } from "../../../agent/sources/folderSourceConfig.ts";
import { aHandClock } from "../../support/aHandClock.ts";
import { until } from "../../support/until.ts";
import type { WatchedSource } from "../../support/watchSource.ts";
import { tempFolder, watchSource } from "../../support/watchSource.ts";

/** A real folder, a clock that the test moves: what has settled is a matter of the clock alone. */
let temp: Awaited<ReturnType<typeof tempFolder>>;
let layouts: string;
let hand: ReturnType<typeof aHandClock>;
let watched: WatchedSource;
let isKept: boolean;

beforeEach(async () => {
  temp = await tempFolder();
  layouts = join(temp.path, "layouts");
  hand = aHandClock(Date.now());
  isKept = true;
});
afterEach(async () => {
  await watched.close();
  await temp.remove();
});

const settleMs = 1_500;
const picture = Buffer.alloc(30_000, 7);

async function watchFolder(more: object = {}): Promise<void> {
  const config = folderSourceConfig.parse({ kind: "folder", path: layouts, scanEveryMs: 100, ...more });
  const source = folderSource(config, { clock: hand.clock, stateFolder: join(temp.path, "state") });
  watched = await watchSource(source, () => isKept);
  if (isKept) await until(() => watched.answers.length > 0, "the first look is done");
}

/** Waits for a look that began after now. */
async function aLook(): Promise<void> {
  const looks = () => watched.answers.length + watched.refused.length;
  const before = looks();
  await until(() => looks() >= before + 2, "another look is done");
}

/** Everything in the folder settles. */
async function settle(): Promise<void> {
  await aLook();
  hand.pass(settleMs);
  await aLook();
}

const put = (name: string, bytes: Buffer = picture): Promise<void> => writeFile(join(layouts, name), bytes);
const sessions = () => watched.items("session");

describe("a folder of finished layouts", () => {
  beforeEach(() => mkdir(layouts));

  test("one settled file is one session", async () => {
    await watchFolder();
    await put("a.jpg");
    await settle();
    expect(sessions()).toMatchObject([
      { class: "fact", kind: "session", basis: "layouts", layouts: 1, shots: null, durationMs: null },
    ]);
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("files from before the first start are not sessions", async () => {
    await put("old.jpg");
    await watchFolder();
    await put("new.jpg");
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("a file that is still growing is waited for", async () => {
    await watchFolder();
    await put("slow.jpg");
    for (let part = 0; part < 4; part += 1) {
      await aLook();
      hand.pass(settleMs - 100);
      await appendFile(join(layouts, "slow.jpg"), picture);
      await aLook();
      expect(sessions()).toEqual([]);
    }
    hand.pass(settleMs);
    await aLook();
    expect(sessions()).toHaveLength(1);
  });

  test("a file that grows up under a working name and is then renamed counts once", async () => {
    await watchFolder();
    await put("a.jpg.part");
    await settle();
    expect(sessions()).toEqual([]);
    await rename(join(layouts, "a.jpg.part"), join(layouts, "a.jpg"));
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("a counted file that is renamed does not count again", async () => {
    await watchFolder();
    await put("a.jpg");
    await settle();
    await rename(join(layouts, "a.jpg"), join(layouts, "table 4.jpg"));
    await settle();
    await put("b.jpg");
    await settle();
    expect(sessions()).toHaveLength(2);
  });

  test("a burst of files counts each", async () => {
    await watchFolder();
    await Promise.all(Array.from({ length: 40 }, (_, i) => put(`burst-${i}.png`)));
    await settle();
    expect(sessions()).toHaveLength(40);
    expect(new Set(sessions().map((session) => session.sessionId)).size).toBe(40);
  });

  test("by-products, small files, folders and other kinds of file do not count", async () => {
    await watchFolder();
    await put("IMG_1_thumb.jpg");
    await put("preview-1.jpg");
    await put(".hidden.jpg");
    await put("~a.jpg");
    await put("notes.txt");
    await put("jpg");
    await put("stub.jpg", Buffer.alloc(20_000));
    await mkdir(join(layouts, "inner.jpg"));
    await put("party at smallwood.JPG");
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("a stub that becomes a picture later counts then", async () => {
    await watchFolder();
    await put("a.jpg", Buffer.alloc(0));
    await settle();
    expect(sessions()).toEqual([]);
    await put("a.jpg");
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("a counted file that is saved again does not count again", async () => {
    await watchFolder();
    await put("a.jpg");
    await settle();
    await put("a.jpg", Buffer.alloc(50_000, 9));
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("a restart neither repeats nor misses", async () => {
    await watchFolder();
    await put("a.jpg");
    await settle();
    const [first] = sessions();
    await watched.close();
    await put("b.jpg");
    hand.pass(600_000);
    await watchFolder();
    await settle();
    expect(sessions()).toHaveLength(1);
    expect(sessions()[0]?.sessionId).not.toBe(first?.sessionId);
    const [late] = watched.sourceItems("session");
    // It was finished when it was written, ten minutes ago, not when it was found.
    expect(late?.agoMs).toBeGreaterThan(590_000);
  });

  test("what the outbox could not keep is told again with the same id", async () => {
    await watchFolder();
    isKept = false;
    await put("a.jpg");
    await settle();
    expect(sessions()).toEqual([]);
    isKept = true;
    await aLook();
    expect(sessions()).toHaveLength(1);
    expect(JSON.stringify(watched.refused)).toContain(sessions()[0]?.sessionId);
  });

  test("a folder that is deleted is not found, and read again when it is made again", async () => {
    await watchFolder();
    await put("0001.jpg");
    await settle();
    await rm(layouts, { recursive: true });
    await until(() => watched.fault() === "notFound", "the folder is missed");
    await mkdir(layouts);
    await until(() => watched.fault() === null, "the folder is back");
    await put("0002.jpg");
    await settle();
    expect(sessions()).toHaveLength(2);
  });

  test("numbering that begins again in a folder made anew counts anew", async () => {
    await watchFolder();
    await put("0001.jpg");
    await settle();
    await rm(layouts, { recursive: true });
    await until(() => watched.fault() === "notFound", "the folder is missed");
    await mkdir(layouts);
    await put("0001.jpg");
    const later = new Date(Date.now() + 60_000);
    await utimes(join(layouts, "0001.jpg"), later, later);
    await until(() => watched.fault() === null, "the folder is back");
    await settle();
    expect(sessions()).toHaveLength(2);
  });
});

test("numbering that begins again in a folder that was taken away and brought back counts anew", async () => {
  await mkdir(layouts);
  await watchFolder();
  await put("0001.jpg");
  await settle();
  const away = join(temp.path, "away");
  await rename(layouts, away);
  await until(() => watched.fault() === "notFound", "the folder is missed");
  await rm(join(away, "0001.jpg"));
  await writeFile(join(away, "0001.jpg"), picture);
  const later = new Date(Date.now() + 60_000);
  await utimes(join(away, "0001.jpg"), later, later);
  await rename(away, layouts);
  await until(() => watched.fault() === null, "the folder is back");
  await settle();
  expect(sessions()).toHaveLength(2);
});

describe("a folder that is not there", () => {
  test("is not found, and what is put into it once it is made counts", async () => {
    await watchFolder();
    expect(watched.fault()).toBe("notFound");
    await mkdir(layouts);
    await until(() => watched.fault() === null, "the folder is read");
    await put("a.jpg");
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("brings old pictures with it when it appears, and those are not sessions", async () => {
    await watchFolder();
    const drive = join(temp.path, "drive");
    await mkdir(drive);
    await writeFile(join(drive, "last-year.jpg"), picture);
    const longAgo = new Date(Date.now() - 86_400_000);
    await utimes(join(drive, "last-year.jpg"), longAgo, longAgo);
    await rename(drive, layouts);
    await until(() => watched.fault() === null, "the folder is read");
    await put("a.jpg");
    await settle();
    expect(sessions()).toHaveLength(1);
  });

  test("is a file by mistake, and says so", async () => {
    await writeFile(layouts, "");
    await watchFolder();
    expect(watched.fault()).toBe("notFound");
  });
});

describe("a folder of shots", () => {
  const gapMs = 20_000;
  beforeEach(() => mkdir(layouts));

  test("shots at most a gap apart are one session, told when the gap has passed", async () => {
    await watchFolder({ holds: "shots" });
    for (const name of ["1.jpg", "2.jpg", "3.jpg"]) {
      await put(name);
      await aLook();
      hand.pass(5_000);
    }
    await aLook();
    expect(sessions()).toEqual([]);
    hand.pass(gapMs);
    await aLook();
    expect(sessions()).toMatchObject([{ basis: "shots", shots: 3, layouts: null, durationMs: 10_000 }]);
  });

  test("shots further apart than the gap are two sessions", async () => {
    await watchFolder({ holds: "shots" });
    await put("1.jpg");
    await aLook();
    hand.pass(gapMs + 1_000);
    await put("2.jpg");
    await aLook();
    hand.pass(gapMs + 1_000);
    await aLook();
    expect(sessions().map((session) => session.shots)).toEqual([1, 1]);
  });

  test("a restart in the middle of a session keeps it whole", async () => {
    await watchFolder({ holds: "shots" });
    await put("1.jpg");
    await put("2.jpg");
    await settle();
    await watched.close();
    await watchFolder({ holds: "shots" });
    await put("3.jpg");
    await settle();
    hand.pass(gapMs + 1_000);
    await aLook();
    expect(sessions().map((session) => session.shots)).toEqual([3]);
  });
});
