import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  mostShift,
  neededChance,
  newForEvents,
  shiftOf,
  trustOf,
  type Score,
} from "../../../dashboard/alerts/trust.ts";
import { aMediaOutlook, aMediaView, aTally } from "../../support/aBoothView.ts";
import { aHeatAhead, anOutlook } from "../../support/anOutlook.ts";
import { aScene } from "../../support/aScene.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { judgedOf } from "../../support/judgedOf.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const young = trustOf(0, {});

describe("a business's first events", () => {
  // Twelve sheets that are gone in ten minutes: only foreseen, and for now.
  const emptyAtMs = { p10: at(65), p50: at(70), p90: at(80) };
  const outlook = anOutlook(at(60), aMediaOutlook({ lastsChance: 0.01, emptyAtMs }));
  const shown = (sheetsLeft: number) => ({
    media: aMediaView({ sheetsLeft }),
    printer: null,
    counts: aTally(),
  });

  it("hear of what is only foreseen as soon, and of what was measured as now", () => {
    expect(judgedOf("mediaLow", aScene(60, [], { outlook, shown: shown(12) }))).toMatchObject({
      severity: "actNow",
    });
    const scene = { outlook, trust: young };
    expect(judgedOf("mediaLow", aScene(60, [], { ...scene, shown: shown(12) }))).toMatchObject({
      severity: "plan",
    });
    expect(judgedOf("mediaLow", aScene(60, [], { ...scene, shown: shown(0) }))).toMatchObject({
      severity: "actNow",
    });
    const hot = aScene(60, [[59, "inside", { insideC: 44 }]], { trust: young });
    expect(judgedOf("tooHot", hot)).toMatchObject({ severity: "actNow" });
  });

  it("are three", () => {
    expect([0, 1, 2, 3].map((events) => trustOf(events, {}).forecastCap)).toEqual([
      ...["plan", "plan", "plan", "actNow"],
    ]);
    expect(newForEvents).toBe(3);
  });
});

describe("the record", () => {
  const score = (raised: number, falseOnes: number, missed: number): Score => ({
    raised,
    false: falseOnes,
    missed,
  });

  it("moves nothing without one, and hardly after one evening", () => {
    expect(shiftOf(score(0, 0, 0))).toBeCloseTo(0, 12);
    expect(Math.abs(shiftOf(score(1, 1, 0)))).toBeLessThan(0.25);
  });

  it("asks for a higher chance after false alarms, and for a lower one after what came unsaid", () => {
    expect(shiftOf(score(12, 10, 0))).toBeGreaterThan(0.4);
    expect(shiftOf(score(6, 0, 6))).toBeLessThan(-0.4);
  });

  it("never moves a chance by more than its bound, and keeps its order", () => {
    const anyScore = fc
      .nat(500)
      .chain((raised) =>
        fc.record({ raised: fc.constant(raised), false: fc.nat(raised), missed: fc.nat(500) }),
      );
    fc.assert(
      fc.property(anyScore, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (its, usual) => {
        expect(Math.abs(shiftOf(its))).toBeLessThanOrEqual(mostShift);
        const trust = trustOf(newForEvents, { tooHot: its });
        const needed = neededChance(usual, "tooHot", trust);
        expect(needed).toBeGreaterThan(0);
        expect(needed).toBeLessThan(1);
        expect(Math.sign(needed - usual) * Math.sign(shiftOf(its))).toBeGreaterThanOrEqual(0);
        if (its.false < its.raised) {
          expect(shiftOf({ ...its, false: its.false + 1 })).toBeGreaterThanOrEqual(shiftOf(its) - 1e-9);
        }
      }),
    );
  });

  it("at its bound makes 14 or 40 % of a chance of 25 %", () => {
    const trust = (shift: number) => ({ forecastCap: "actNow", shifts: { tooHot: shift } }) as const;
    expect(neededChance(0.25, "tooHot", trust(mostShift))).toBeCloseTo(0.4, 2);
    expect(neededChance(0.25, "tooHot", trust(-mostShift))).toBeCloseTo(0.14, 2);
    expect(neededChance(0.25, "mediaLow", trust(mostShift))).toBe(0.25);
  });

  it("moves the chance from which heat is said", () => {
    const heat = [aHeatAhead(at(60), 0.3)];
    const inside = [[59, "inside", { insideC: 36 }]] as const;
    const standsWith = (its: Score) =>
      judgedOf(
        "tooHot",
        aScene(60, inside, {
          outlook: anOutlook(at(60), null, { heat }),
          trust: trustOf(9, { tooHot: its }),
        }),
      ).stands;
    expect(standsWith(score(0, 0, 0))).toBe("holds");
    expect(standsWith(score(30, 29, 0))).toBe("lingers");
  });
});
