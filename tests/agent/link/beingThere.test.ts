import { describe, expect, it } from "vitest";
import { type LinkRig, linkRig } from "../../support/linkRig.ts";
import { aSession } from "../../support/outboxItems.ts";

/** How long until the next try, in steps of 10 ms. */
function waitMs(rig: LinkRig): number {
  const tries = rig.pair.signIns.length;
  for (let ms = 0; ms <= 60_000; ms += 10) {
    if (rig.pair.signIns.length > tries) return ms;
    rig.time.pass(10);
  }
  return Infinity;
}

describe("being there", () => {
  it("[B1] beats every ten seconds", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.settle();
    for (let i = 0; i < 5; i++) {
      rig.time.pass(9_999);
      expect(rig.hear()).toEqual([]);
      rig.time.pass(1);
      rig.answerAll();
      rig.pair.flush();
    }
    expect(rig.heardKinds()).toEqual(["greet", ...Array.from({ length: 6 }, () => "beat")]);
  });

  it("[B1] hangs up with 4408 after three beats without an answer", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.time.pass(29_999);
    expect(rig.heardKinds()).toEqual(["greet", "beat", "beat", "beat"]);
    expect(rig.pair.endings).toEqual([]);
    rig.time.pass(1);
    expect(rig.pair.endings).toEqual(["4408 three beats were not answered"]);
    expect(rig.link.status().word).toBe("silent");
  });

  it("[B1] takes any frame as a sign of life", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.time.pass(25_000);
    rig.pair.answer({ kind: "ack", bootId: "boot1", throughSeq: 0 });
    rig.pair.flush();
    rig.time.pass(20_000);
    expect(rig.pair.endings).toEqual([]);
    expect(rig.link.status().word).toBe("linked");
  });

  it("[B2] comes back after a random share of a doubling time", async () => {
    const rig = await linkRig();
    const waits: number[] = [];
    for (let i = 0; i < 9; i++) {
      rig.pair.cut();
      waits.push(waitMs(rig));
    }
    expect(waits).toEqual([250, 500, 1_000, 2_000, 4_000, 8_000, 15_000, 15_000, 15_000]);
    rig.dice = 0.01;
    rig.pair.cut();
    expect(waitMs(rig)).toBe(300);
  });

  it("[B2] begins with the short time again after a welcome", async () => {
    const rig = await linkRig();
    for (let i = 0; i < 5; i++) {
      rig.pair.cut();
      waitMs(rig);
    }
    rig.welcome();
    rig.pair.cut();
    expect(waitMs(rig)).toBe(250);
  });

  it("says once that the dashboard cannot be reached, and says when it is linked again", async () => {
    const rig = await linkRig();
    for (let i = 0; i < 5; i++) {
      rig.pair.cut();
      waitMs(rig);
    }
    rig.welcome();
    expect(rig.statuses.map(({ word }) => word)).toEqual(["unreachable", "linked"]);
    expect(rig.kept.lines.map(({ level }) => level)).toEqual(["warn", "info"]);
  });

  it("stays away while a played scenario holds the link, whatever is tried, and catches up after it", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.settle();
    rig.link.holdLink(90_000);
    expect(rig.pair.endings).toEqual(["cut"]);
    await rig.append([aSession("a")]);
    rig.link.tryNow();
    rig.link.bootBegun();
    rig.time.pass(89_999);
    expect(rig.pair.signIns).toHaveLength(1);
    rig.time.pass(1);
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 1 after 0"]);
  });

  it("closes with 1000 when the agent stops, and does not come back", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.link.stop();
    expect(rig.pair.endings).toEqual(["1000 the agent stops"]);
    rig.time.pass(600_000);
    await rig.append([aSession("a")]);
    expect(rig.pair.signIns).toHaveLength(1);
  });
});
