import { describe, expect, it } from "vitest";
import { aSession } from "../../support/outboxItems.ts";
import { linkRig } from "../../support/linkRig.ts";

const fiveMinutesMs = 300_000;

describe("opening the link", () => {
  it("[L1] opens with the token, and does not log it", async () => {
    const rig = await linkRig();
    expect(rig.pair.signIns).toEqual([{ dashboard: "http://dashboard.test", token: "token-of-this-agent" }]);
    rig.pair.refuse(401);
    expect(JSON.stringify(rig.kept.lines)).not.toContain("token-of-this-agent");
  });

  it("[L1] says which command pairs it when the dashboard does not know the token", async () => {
    const rig = await linkRig();
    rig.pair.refuse(401);
    expect(rig.link.status().word).toBe("notPaired");
    expect(rig.link.status().sentence).toContain(
      "agent pair --config FILE --dashboard http://dashboard.test --code CODE",
    );
    expect(rig.kept.lines.map((line) => line.level)).toEqual(["warn"]);
  });

  it("[L1] says the same without a token, asks nobody, and opens as soon as it is paired", async () => {
    const rig = await linkRig();
    rig.pair.refuse(401);
    rig.signIn = null;
    rig.time.pass(60_000);
    await Promise.resolve();
    expect(rig.pair.signIns).toHaveLength(1);
    expect(rig.link.status().word).toBe("notPaired");
    rig.signIn = { dashboard: "http://dashboard.test", token: "another-token-of-it" };
    rig.link.tryNow();
    rig.time.pass(0);
    expect(rig.pair.signIns[1]?.token).toBe("another-token-of-it");
  });

  it("[L2] sends greet first, with protocol version, boot and last number, and nothing before the welcome", async () => {
    const rig = await linkRig();
    await rig.append([aSession("a"), aSession("b")]);
    rig.pair.accept();
    expect(rig.hear()).toEqual([
      {
        kind: "greet",
        protocol: 1,
        agentId: "agent-1",
        bootId: "boot1",
        lastSeq: 2,
        version: "0.1.0",
        scenario: null,
        t1MonoMs: 1_000,
      },
    ]);
    rig.time.pass(10_000);
    expect(rig.hear()).toEqual([]);
  });

  it("[L3] says both versions after 4426 and tries again every five minutes only", async () => {
    const rig = await linkRig();
    rig.pair.accept();
    rig.pair.close(4426, "protocol 1 here, 2 there");
    expect(rig.link.status().sentence).toContain("protocol 1 here, 2 there");
    rig.time.pass(fiveMinutesMs - 1);
    expect(rig.pair.signIns).toHaveLength(1);
    rig.time.pass(1);
    expect(rig.pair.signIns).toHaveLength(2);
  });

  it("[L4] goes on after what the dashboard has of each boot", async () => {
    const rig = await linkRig();
    await rig.append([aSession("a"), aSession("b"), aSession("c")]);
    rig.outbox.startBoot("boot2");
    await rig.append([aSession("d"), aSession("e")]);
    rig.end.take({ bootId: "boot1", afterSeq: 0, items: rig.outbox.peek(2)?.items ?? [] });
    rig.welcome();
    rig.settle();
    expect(rig.batches).toEqual(["boot1: 3 after 2", "boot2: 1 2 after 0"]);
    expect(rig.end.passedOver).toBe(0);
  });

  it("[L4] says who it is when it is linked", async () => {
    const rig = await linkRig();
    rig.welcome();
    expect(rig.link.status()).toEqual({ word: "linked", sentence: "Linked as Willow." });
  });

  it("[L5] stays away a minute when another agent has replaced it", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.pair.close(4409);
    expect(rig.link.status().sentence).toContain("is a copy of its data folder in use elsewhere?");
    rig.time.pass(59_999);
    expect(rig.pair.signIns).toHaveLength(1);
    rig.time.pass(1);
    expect(rig.pair.signIns).toHaveLength(2);
  });

  it("[L6] says that it is revoked, keeps what it has and asks every five minutes only", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.pair.close(4403, "revoked");
    await rig.append([aSession("a")]);
    for (let tries = 2; tries <= 4; tries++) {
      rig.time.pass(fiveMinutesMs - 1);
      expect(rig.pair.signIns).toHaveLength(tries - 1);
      rig.time.pass(1);
      expect(rig.pair.signIns).toHaveLength(tries);
      rig.pair.refuse(403);
    }
    expect(rig.link.status().word).toBe("revoked");
    expect(
      rig.kept.sentences().filter((sentence) => sentence.includes("has revoked this agent")),
    ).toHaveLength(1);
    expect(rig.outbox.peek(10)?.items).toHaveLength(1);
  });

  it("says that an address is no dashboard's", async () => {
    const rig = await linkRig();
    rig.pair.refuse(404);
    expect(rig.link.status().word).toBe("noDashboard");
  });

  it("takes a proxy's bad moment for a network that is away", async () => {
    const rig = await linkRig();
    rig.pair.refuse(502);
    expect(rig.link.status().word).toBe("unreachable");
  });

  it("gives up an opening and a greeting that nobody answers", async () => {
    const rig = await linkRig();
    rig.time.pass(15_000);
    expect(rig.pair.endings).toEqual(["4408 no answer in time"]);
    rig.time.pass(30_000 - 15_000);
    rig.pair.accept();
    rig.time.pass(15_000);
    expect(rig.pair.endings).toEqual(["4408 no answer in time", "4408 no answer in time"]);
  });
});
