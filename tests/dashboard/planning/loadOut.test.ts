import { loadItem, readiness, type LoadItem } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { loadOut, type LoadPlan } from "../../../dashboard/planning/loadOut.ts";
import { nextReadiness } from "../../../dashboard/planning/readinessSteps.ts";
import { aBooking } from "../../support/aBooking.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";

const none = new Map<string, never>();
const itemsOf = (over: Partial<LoadPlan> = {}): LoadItem[] => {
  const plan = { booking: aBooking(), isTrailer: false, rolls: { bring: 3 }, hasSun: false, ...over };
  return loadOut(plan, none).map(({ item }) => item);
};
const withPower = (over: Parameters<typeof aPowerPlan>[0]) => ({
  booking: aBooking({ power: aPowerPlan(over) }),
});

describe("the list of what goes into the van", () => {
  it("names each thing once, the rolls with their number, and what is ticked by whom", () => {
    const booking = aBooking();
    const tick = { by: "Ben", atMs: booking.openAtMs };
    const plan = { booking, isTrailer: true, rolls: { bring: 3 }, hasSun: true };
    const lines = loadOut(plan, new Map([["load.rolls", tick]]));
    expect(new Set(lines.map(({ check }) => check)).size).toBe(lines.length);
    expect(lines.find(({ item }) => item === "rolls")).toEqual({
      item: "rolls",
      check: "load.rolls",
      count: 3,
      tick,
    });
    expect(lines.find(({ item }) => item === "cord")?.tick).toBeNull();
  });

  it("follows the plan: its current, its trailer, its sun", () => {
    expect(itemsOf()).toContain("cord");
    expect(itemsOf(withPower({ cord: null }))).not.toContain("cord");
    expect(itemsOf(withPower({ source: "generator" }))).toEqual(
      expect.arrayContaining(["generator", "extinguisher"]),
    );
    expect(itemsOf(withPower({ source: "battery" }))).toContain("battery");
    expect(itemsOf({ isTrailer: true })).toEqual(expect.arrayContaining(["levelling", "weights"]));
    expect(itemsOf({ isTrailer: true })).not.toContain("backdrop");
    expect(itemsOf({ hasSun: true })).toContain("awning");
    const all = [
      ...[itemsOf(), itemsOf({ isTrailer: true, hasSun: true })],
      ...[itemsOf(withPower({ source: "generator" })), itemsOf(withPower({ source: "battery" }))],
    ].flat();
    expect(new Set(all)).toEqual(new Set(loadItem.options));
  });
});

describe("where a booth stands", () => {
  it("goes from the van to the van, with a break, and is never packed while it is open", () => {
    const way = [
      "packed",
      "onSite",
      "powered",
      "checked",
      "open",
      "onBreak",
      "open",
      "closing",
      "packedDown",
    ] as const;
    let now: (typeof way)[number] | null = null;
    for (const next of way) {
      expect(nextReadiness(now)).toContain(next);
      now = next;
    }
    expect(nextReadiness("open")).not.toContain("packedDown");
    for (const to of readiness.options) {
      expect(nextReadiness(to)).not.toContain(to);
      expect(nextReadiness(to).length).toBeGreaterThan(0);
    }
  });
});
