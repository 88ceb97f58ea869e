import { mkdir } from "node:fs/promises";
import { beforeEach, describe, expect, test } from "vitest";
import { watchedFolder } from "../../support/watchedFolder.ts";

const folder = watchedFolder();

describe("a folder of shots", () => {
  const gapMs = 20_000;
  beforeEach(() => mkdir(folder.layouts));

  test("shots at most a gap apart are one session, told when the gap has passed", async () => {
    await folder.watch({ holds: "shots" });
    for (const name of ["1.jpg", "2.jpg", "3.jpg"]) {
      await folder.put(name);
      await folder.aLook();
      folder.hand.pass(5_000);
    }
    await folder.aLook();
    expect(folder.sessions()).toEqual([]);
    folder.hand.pass(gapMs);
    await folder.aLook();
    expect(folder.sessions()).toMatchObject([
      { basis: "shots", shots: 3, layouts: null, durationMs: 10_000 },
    ]);
  });

  test("shots further apart than the gap are two sessions", async () => {
    await folder.watch({ holds: "shots" });
    await folder.put("1.jpg");
    await folder.aLook();
    folder.hand.pass(gapMs + 1_000);
    await folder.put("2.jpg");
    await folder.aLook();
    folder.hand.pass(gapMs + 1_000);
    await folder.aLook();
    expect(folder.sessions().map((session) => session.shots)).toEqual([1, 1]);
  });

  test("a restart in the middle of a session keeps it whole", async () => {
    await folder.watch({ holds: "shots" });
    await folder.put("1.jpg");
    await folder.put("2.jpg");
    await folder.settle();
    await folder.source().close();
    await folder.watch({ holds: "shots" });
    await folder.put("3.jpg");
    await folder.settle();
    folder.hand.pass(gapMs + 1_000);
    await folder.aLook();
    expect(folder.sessions().map((session) => session.shots)).toEqual([3]);
  });
});
