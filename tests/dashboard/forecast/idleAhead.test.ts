import { describe, expect, it } from "vitest";
import { idleAhead } from "../../../dashboard/forecast/idleAhead.ts";
import { aDemandInput, aDemandPlan, atMin, sessionsEvery } from "../../support/aDemandInput.ts";

const busy = aDemandInput({ sessions: sessionsEvery(4, 0, 100) });
const at = (min: number, input = busy) => idleAhead(input, [], atMin(min), null).idle;

describe("a spell without guests", () => {
  it("is none while it is short", () => {
    expect(at(115)).toBeNull();
  });

  it("is the less likely the longer it is, by what was known when it began", () => {
    const [early, late] = [at(121), at(140)];
    expect(early).toMatchObject({ sinceAtMs: atMin(100), basis: "learned" });
    expect(late?.noneChance).toBeLessThan(early?.noneChance ?? 0);
    // Twenty-five groups in 100 minutes: of forty minutes at that rate ten would be expected.
    expect(late?.sessionsExpected).toBeGreaterThan(5);
    expect(late?.sessionsExpected).toBeLessThan(15);
  });

  it("does not excuse itself: guests go on being expected at the rate of before", () => {
    const [first, later] = [at(125)?.sessionsExpected ?? 0, at(160)?.sessionsExpected ?? 0];
    expect(later / 60).toBeGreaterThan((0.75 * first) / 25);
    const knownLater = { ...busy, sessions: [...busy.sessions, { atMs: atMin(170), sheets: 2 }] };
    expect(at(160, knownLater)).toEqual(at(160));
  });

  it("is ordinary on an evening of few guests", () => {
    const slow = aDemandInput({ plan: aDemandPlan({ guests: 20 }), sessions: sessionsEvery(25, 0, 100) });
    expect(at(135, slow)?.noneChance).toBeGreaterThan(0.02);
  });

  it("begins after a stop, a break and the opening, and is none while they last", () => {
    const stopped = { ...busy, stops: [{ fromAtMs: atMin(105), toAtMs: atMin(115) }] };
    expect(at(140, stopped)?.sinceAtMs).toBe(atMin(115));
    expect(at(140, { ...busy, stops: [{ fromAtMs: atMin(105), toAtMs: null }] })).toBeNull();
    const onBreak = [{ atMs: atMin(102), to: "onBreak" as const }];
    expect(idleAhead(busy, onBreak, atMin(140), null).idle).toBeNull();
    const back = [...onBreak, { atMs: atMin(110), to: "open" as const }];
    expect(idleAhead(busy, back, atMin(140), null).idle?.sinceAtMs).toBe(atMin(110));
    expect(at(30, aDemandInput())?.sinceAtMs).toBe(atMin(0));
    expect(at(-10, aDemandInput())).toBeNull();
    expect(at(301)).toBeNull();
  });

  it("is the same whatever was asked before", () => {
    const first = idleAhead(busy, [], atMin(125), null);
    expect(idleAhead(busy, [], atMin(140), first.run).idle).toEqual(at(140));
  });
});
