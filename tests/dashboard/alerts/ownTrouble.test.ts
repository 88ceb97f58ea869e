import { describe, expect, it } from "vitest";
import { noTrouble, stepOwnTrouble, type OwnProbes } from "../../../dashboard/alerts/ownTrouble.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

const secondMs = 1_000;
const probes = (over: Partial<OwnProbes> = {}): OwnProbes => ({
  ...{ wallMs: sixAtMs, monoMs: 60_000, before: { wallMs: sixAtMs - secondMs, monoMs: 59_000 } },
  ...{ calls: [], outsideHeardAtMs: [] },
  ...over,
});
const failed = { atMs: sixAtMs - 10 * secondMs, didAnswer: false };
const silentFrom = (...seconds: number[]) => seconds.map((second) => sixAtMs - second * secondMs);

describe("the dashboard's own uplink", () => {
  const uplink = (over: Partial<OwnProbes>) => stepOwnTrouble(noTrouble, probes(over)).uplink;

  it("is down when every call failed and all agents from outside fell silent together", () => {
    expect(uplink({ calls: [failed], outsideHeardAtMs: silentFrom(60, 70, 80) })).toBe("down");
  });

  it("is not down by one of both alone", () => {
    expect(uplink({ calls: [failed] })).toBe("unknown");
    expect(uplink({ outsideHeardAtMs: silentFrom(60, 70) })).toBe("unknown");
    expect(uplink({ calls: [failed], outsideHeardAtMs: silentFrom(60) })).toBe("unknown");
    expect(uplink({ calls: [failed], outsideHeardAtMs: silentFrom(60, 600) })).toBe("unknown");
  });

  it("is ok with one answer or one agent", () => {
    const answered = { atMs: sixAtMs - 20 * secondMs, didAnswer: true };
    expect(uplink({ calls: [failed, answered], outsideHeardAtMs: silentFrom(60, 70) })).toBe("ok");
    expect(uplink({ calls: [failed], outsideHeardAtMs: silentFrom(60, 2) })).toBe("ok");
  });

  it("is not judged by calls of long ago, or of before the silence", () => {
    const old = { atMs: sixAtMs - 4 * minuteMs, didAnswer: true };
    const before = { atMs: sixAtMs - 75 * secondMs, didAnswer: true };
    expect(uplink({ calls: [before, failed], outsideHeardAtMs: silentFrom(60, 70) })).toBe("down");
    expect(uplink({ calls: [old, failed], outsideHeardAtMs: silentFrom(60, 70) })).toBe("down");
  });

  it("keeps since when it is so", () => {
    const down = { calls: [failed], outsideHeardAtMs: silentFrom(60, 70) };
    const first = stepOwnTrouble(noTrouble, probes(down));
    const next = stepOwnTrouble(first, probes({ ...down, wallMs: sixAtMs + secondMs }));
    expect([first.uplinkFromAtMs, next.uplinkFromAtMs]).toEqual([sixAtMs, sixAtMs]);
  });
});

describe("the dashboard's own clock", () => {
  it("has stepped when wall and steady clock part, for five minutes", () => {
    const before = { wallMs: sixAtMs - 3_600_000, monoMs: 59_000 };
    const stepped = stepOwnTrouble(noTrouble, probes({ before }));
    expect(stepped).toMatchObject({ clock: "stepped", clockSteppedAtMs: sixAtMs });
    const wallMs = sixAtMs + 4 * minuteMs;
    const later = probes({ wallMs, monoMs: 99_000, before: { wallMs: wallMs - secondMs, monoMs: 98_000 } });
    expect(stepOwnTrouble(stepped, later).clock).toBe("stepped");
    const last = wallMs + minuteMs;
    const much = probes({
      wallMs: last,
      monoMs: 99_000,
      before: { wallMs: last - secondMs, monoMs: 98_000 },
    });
    expect(stepOwnTrouble(stepped, much).clock).toBe("ok");
  });

  it("is ok when both go on together, however slowly it is looked at", () => {
    const before = { wallMs: sixAtMs - 600_000, monoMs: 60_000 - 600_000 };
    expect(stepOwnTrouble(noTrouble, probes({ before })).clock).toBe("ok");
    expect(stepOwnTrouble(noTrouble, probes({ before: null })).clock).toBe("ok");
  });
});
