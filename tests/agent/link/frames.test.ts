import { describe, expect, it } from "vitest";
import { linkRig } from "../../support/linkRig.ts";
import { aSession } from "../../support/outboxItems.ts";

describe("frames of the dashboard", () => {
  it.each([
    ["not JSON", "{", "frame is not JSON"],
    ["without a kind", "[]", "frame has no kind"],
    ["with a wrong field", '{"kind":"ack","bootId":"boot1","throughSeq":"many"}', "ack.throughSeq: "],
  ])("[F1] close the link with 4400 when they are %s, and the field is named", async (_, text, words) => {
    const rig = await linkRig();
    rig.welcome();
    rig.pair.answer(text);
    rig.pair.flush();
    expect(rig.pair.endings).toHaveLength(1);
    expect(rig.pair.endings[0]).toMatch(/^4400 /);
    expect(rig.pair.endings[0]).toContain(words);
    expect(rig.link.status().sentence).toContain(words);
  });

  it("[F1] leave what was stored before a bad one as it is", async () => {
    const rig = await linkRig();
    await rig.append([aSession("a")]);
    rig.welcome();
    rig.settle();
    rig.pair.answer("{");
    rig.pair.flush();
    expect(rig.outbox.peek(10)).toBeNull();
  });

  it("[F1] that refuse one of ours are logged with the field, and the agent comes back half a minute later", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.pair.answer({ kind: "refused", reason: "must be a number", field: "items.3.seq" });
    rig.pair.flush();
    rig.pair.close(4400, "must be a number");
    const line = rig.kept.lines.find(({ sentence }) => sentence.startsWith("the dashboard refused"));
    expect(line?.fields).toEqual({ field: "items.3.seq" });
    rig.time.pass(29_999);
    expect(rig.pair.isOpen).toBe(false);
    rig.time.pass(1);
    expect(rig.pair.isOpen).toBe(true);
  });

  it("[F3] of an unknown kind are passed over with a log line", async () => {
    const rig = await linkRig();
    rig.welcome();
    rig.pair.answer('{"kind":"balloon","colour":"red"}');
    rig.pair.flush();
    expect(rig.link.status().word).toBe("linked");
    expect(rig.kept.sentences()).toContain("a frame of an unknown kind was passed over");
  });

  it("of a link that was given up are not heard", async () => {
    const rig = await linkRig();
    await rig.append([aSession("a")]);
    rig.welcome();
    rig.answerAll();
    rig.link.holdLink(1_000);
    rig.pair.flush();
    expect(rig.outbox.peek(10)?.items).toHaveLength(1);
  });
});
