import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import { afterEach, beforeEach } from "vitest";
import { folderSource } from "../../agent/sources/folderSource.ts";
import { folderSourceConfig } from "../../agent/sources/folderSourceConfig.ts";
import { aHandClock } from "./aHandClock.ts";
import { until } from "./until.ts";
import type { WatchedSource } from "./watchSource.ts";
import { tempFolder, watchSource } from "./watchSource.ts";

/** How long a file stays as it is until it counts. */
export const settleMs = 1_500;

export const picture = Buffer.alloc(30_000, 7);

/**
 * For the tests of a file: a real folder, not made yet, and a clock that the test moves, new for each test. What
 * has settled is a matter of the clock alone.
 */
export function watchedFolder() {
  let temp: Awaited<ReturnType<typeof tempFolder>>;
  let watched: WatchedSource;
  const folder = {
    hand: aHandClock(),
    /** Where the layouts go. */
    layouts: "",
    /** Whether what is told can be kept. */
    isKept: true,
    in: (name: string) => join(temp.path, name),
    source: () => watched,
    async watch(more: object = {}): Promise<void> {
      const asked = folderSourceConfig.parse({ kind: "folder", path: folder.layouts, ...more });
      // More often than a person may set it: each test waits for some looks.
      const config = { ...asked, scanEveryMs: 20 };
      const source = folderSource(config, { clock: folder.hand.clock, stateFolder: folder.in("state") });
      watched = await watchSource(source, () => folder.isKept);
      if (folder.isKept) await until(() => watched.answers.length > 0, "the first look is done");
    },
    /** Waits for a look that began after now. */
    async aLook(): Promise<void> {
      const looks = () => watched.answers.length + watched.refused.length;
      const before = looks();
      await until(() => looks() >= before + 2, "another look is done");
    },
    /** Everything in the folder settles. */
    async settle(): Promise<void> {
      await folder.aLook();
      folder.hand.pass(settleMs);
      await folder.aLook();
    },
    put: (name: string, bytes: Buffer = picture): Promise<void> =>
      writeFile(join(folder.layouts, name), bytes),
    sessions: () => watched.items("session"),
  };
  beforeEach(async () => {
    temp = await tempFolder();
    folder.layouts = folder.in("layouts");
    folder.hand = aHandClock(Date.now());
    folder.isKept = true;
  });
  afterEach(async () => {
    await watched.close();
    await temp.remove();
  });
  return folder;
}
