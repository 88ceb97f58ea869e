import { noStanding, outlook as outlookSchema, type BoothBox } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { reduceBooth, type BoothState } from "../../../dashboard/booth/boothState.ts";
import { isSameHeat, outlookOf, withHeatNow, type OutlookMemo } from "../../../dashboard/forecast/index.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateOf } from "../../support/aBooth.ts";
import { aStoredItem, minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const box: BoothBox = {
  ...{ widthM: 2, lengthM: 3.6, heightM: 2.1 },
  openings: [{ xM: 2, yM: 1.8, bearingDeg: 90, widthM: 1.8, heightM: 1, sillM: 0.9, overhang: null }],
  printer: { xM: 1.2, yM: 1.6, heightM: 1 },
};
const standing = { ...noStanding, headingDeg: 180 };
const booked = aBookedTime({ standing });
const measured = aBooth({ box, limitC: 40 });

/** A temperature that rises by so much a minute, read each minute. */
function rising(fromC: number, perMinC: number, minutes: number, sensor = "printer"): StoryLine[] {
  return Array.from({ length: minutes }, (_, minute) => [
    minute,
    "inside",
    { insideC: Math.round((fromC + perMinC * minute) * 10) / 10, sensor },
  ]);
}

function heatAfter(state: BoothState, minute: number, memo: OutlookMemo | null = null) {
  return outlookOf(state, booked, measured, at(minute), [], memo);
}

describe("the next hour at the printer", () => {
  it("passes a limit that the temperature climbs towards, and not one far above", () => {
    const [hot] = heatAfter(stateOf(rising(32, 0.1, 60)), 60).outlook.heat;
    const [mild] = heatAfter(stateOf(rising(22, 0, 60)), 60).outlook.heat;
    expect(hot?.crossChance60).toBeGreaterThan(0.5);
    expect(hot?.crossAtMs).toBeGreaterThan(at(60));
    expect(mild?.crossChance60).toBeLessThan(0.02);
    expect(mild?.crossAtMs).toBeNull();
  });

  it("is not enough data after one reading, and nothing without a thermometer", () => {
    expect(heatAfter(stateOf(rising(25, 0, 1)), 1).outlook.heat[0]?.basis).toBe("notEnoughData");
    expect(heatAfter(stateOf([]), 1).outlook.heat).toEqual([]);
  });

  it("has one look ahead for each thermometer, the one that threatens first", () => {
    const cool = rising(20, 0, 60, "shelf");
    const both = [...rising(33, 0.1, 60), ...cool].sort((a, b) => a[0] - b[0]);
    expect(heatAfter(stateOf(both), 60).outlook.heat.map(({ sensor }) => sensor)).toEqual([
      "printer",
      "shelf",
    ]);
  });

  it("needs no place, no walls and no booking", () => {
    const state = stateOf(rising(25, 0.02, 40));
    const nowhere = aBookedTime({ latitudeDeg: null, longitudeDeg: null });
    for (const booking of [nowhere, null]) {
      const { outlook } = outlookOf(state, booking, aBooth(), at(40), [], null);
      expect(outlook.heat[0]?.basis).toBe("enoughData");
      expect(outlook.sun).toBeNull();
    }
  });

  it("is the same with the memo of earlier looks and without, however often it was asked", () => {
    const anyAsks = fc.uniqueArray(fc.integer({ min: 1, max: 299 }), { maxLength: 6 });
    const lines = rising(24, 0.04, 300);
    fc.assert(
      fc.property(anyAsks, (asks) => {
        let memo: OutlookMemo | null = null;
        for (const minute of asks.sort((a, b) => a - b))
          memo = heatAfter(stateOf(lines.filter((line) => line[0] <= minute)), minute, memo).memo;
        const state = stateOf(lines);
        const { outlook } = heatAfter(state, 300, memo);
        expect(outlook.heat).toStrictEqual(heatAfter(state, 300).outlook.heat);
        expect(outlookSchema.parse(outlook)).toEqual(outlook);
        for (const { p10, p50, p90 } of outlook.heat[0]?.fan ?? [])
          expect(p10 <= p50 && p50 <= p90).toBe(true);
      }),
      { numRuns: 8 },
    );
  }, 60_000);
});

describe("looking at the temperature again", () => {
  const before = stateOf(rising(25, 0.05, 40));
  const looked = heatAfter(before, 40);

  it("leaves the paper as it was", () => {
    const warmer = reduceBooth(before, {
      ...aStoredItem("inside"),
      sensor: "printer",
      insideC: 30,
      atMs: at(41),
    });
    expect(isSameHeat(before, warmer)).toBe(false);
    const again = withHeatNow(looked, warmer, booked, measured, at(41));
    expect(again.outlook.media).toBe(looked.outlook.media);
    expect(again.outlook.heat).not.toEqual(looked.outlook.heat);
  });

  it("is not called for by another reading of the same minute", () => {
    const same = { ...aStoredItem("inside"), sensor: "printer", insideC: 27, atMs: at(39) + 20_000 };
    expect(isSameHeat(before, reduceBooth(before, same))).toBe(true);
  });
});

describe("the sun on the printer", () => {
  it("comes through the west window of a trailer in the afternoon, up to its setting", () => {
    const { sun } = heatAfter(stateOf([]), 0).outlook;
    const [first] = sun ?? [];
    // 20 June at 51.5 N 0 E: the sun stands south at 12 UTC and sets about 20:21.
    expect(sun).toHaveLength(1);
    expect(first?.fromAtMs).toBeGreaterThan(at(-5 * 60));
    expect(first?.toAtMs).toBeLessThan(at(150));
    expect(first?.toAtMs).toBeGreaterThan(at(60));
  });

  it("is not known where nobody measured the booth, or said how it stands", () => {
    expect(outlookOf(stateOf([]), booked, aBooth(), at(0), [], null).outlook.sun).toBeNull();
    expect(outlookOf(stateOf([]), aBookedTime(), measured, at(0), [], null).outlook.sun).toBeNull();
  });

  it("is found once for a booking, and anew when the booth stands otherwise", () => {
    const first = heatAfter(stateOf([]), 0);
    expect(heatAfter(stateOf([]), 5, first.memo).outlook.sun).toBe(first.outlook.sun);
    const turned = aBookedTime({ standing: { ...standing, headingDeg: 0 } });
    const { sun } = outlookOf(stateOf([]), turned, measured, at(5), [], first.memo).outlook;
    expect(sun).not.toEqual(first.outlook.sun);
  });
});
