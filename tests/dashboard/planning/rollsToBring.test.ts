import type { PrintSize } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import type { PastEvening } from "../../../dashboard/forecast/demand/demandInput.ts";
import { plannedSheets } from "../../../dashboard/forecast/plannedSheets.ts";
import { rollsToBring } from "../../../dashboard/planning/rollsToBring.ts";
import { aBooking } from "../../support/aBooking.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

describe("media that a session takes by its plan", () => {
  const takes = (size: PrintSize, printsPerSession: number) =>
    plannedSheets({ printSizes: [size], printsPerSession }) ?? NaN;

  it("adds up as the trade counts it", () => {
    // 60 x two 4x6 + 100 x two strips + 10 x one 6x8 = 240 of a roll of 400 (common practice, no source).
    expect(60 * takes("4x6", 2) + 100 * takes("2x6", 2) + 10 * takes("6x8", 1)).toBe(240);
    expect(takes("2x6", 1)).toBe(1);
    expect(takes("2x6", 3)).toBe(2);
  });

  it("is not known without a number, a size, or where sizes differ in it", () => {
    expect(plannedSheets({ printSizes: ["4x6"], printsPerSession: null })).toBeNull();
    expect(plannedSheets({ printSizes: [], printsPerSession: 2 })).toBeNull();
    expect(plannedSheets({ printSizes: ["4x6", "6x8"], printsPerSession: 2 })).toBeNull();
    expect(plannedSheets({ printSizes: ["4x6", "2x6"], printsPerSession: 1 })).toBe(1);
  });
});

describe("rolls to bring", () => {
  it("cover ninety-nine evenings in a hundred less what each fitting wastes, and leave one at the booth", () => {
    const rolls = rollsToBring(aBooking(), 400, []);
    expect(rolls.bring).toBe(rolls.forEvening + 1);
    expect(rolls.forEvening * 396).toBeGreaterThanOrEqual(rolls.mostSheets);
    expect((rolls.forEvening - 1) * 396).toBeLessThan(rolls.mostSheets);
    expect(rolls.usualSheets).toBeLessThan(rolls.mostSheets);
    expect(rolls).toMatchObject({ reserve: 1, wasteSheets: 4, basis: "planned", loadedSheets: null });
  });

  it("are counted beside what is loaded, and said to be short against the plan's spares", () => {
    const empty = rollsToBring(aBooking({ spareRolls: 0 }), 100, []);
    const loaded = rollsToBring(aBooking({ spareRolls: 0, sheetsLoaded: 100 }), 100, []);
    expect(loaded.forEvening).toBeLessThan(empty.forEvening);
    expect(empty.short).toBe(empty.bring - 1);
    expect(loaded.short).toBe(loaded.bring);
    expect(rollsToBring(aBooking({ spareRolls: 50 }), 100, []).short).toBe(0);
  });

  it("are never fewer with more guests, longer hours, more prints a session or smaller rolls", () => {
    const never = (figures: readonly number[], rolls: (figure: number) => number) => {
      const asked = figures.map(rolls);
      expect(asked).toEqual([...asked].sort((a, b) => a - b));
      expect(asked.at(-1)).toBeGreaterThan(asked[0] ?? NaN);
    };
    const bring = (over: Parameters<typeof aBooking>[0], kit = 100) =>
      rollsToBring(aBooking(over), kit, []).bring;
    never([10, 20, 40, 60, 80, 100, 120, 150, 200, 250, 300, 400], (guests) => bring({ guests }));
    never([2, 3, 4, 5, 6, 8], (hours) => bring({ guests: null, closeAtMs: sixAtMs + hours * hourMs }));
    never([1, 2, 3, 4, 6], (printsPerSession) => bring({ printsPerSession, printSizes: ["4x6"] }));
    never([700, 400, 200, 100, 50], (kit) => -bring({}, kit) * -1);
  });

  it("are not more for an evening with a long break", () => {
    const breaks = [{ fromAtMs: sixAtMs + 2 * hourMs, toAtMs: sixAtMs + 4 * hourMs }];
    const [whole, broken] = [rollsToBring(aBooking(), 100, []), rollsToBring(aBooking({ breaks }), 100, [])];
    expect(broken.mostSheets).toBeLessThan(0.85 * whole.mostSheets);
  });

  it("are the same whenever they are asked, and follow earlier evenings of the kind", () => {
    expect(rollsToBring(aBooking(), 400, [])).toEqual(rollsToBring(aBooking(), 400, []));
    const past = Array.from({ length: 5 }, (_, at) => aPastEvening(at, 40));
    const quiet = rollsToBring(aBooking(), 400, past);
    expect(quiet).toMatchObject({ basis: "learned", pastEvenings: 5 });
    expect(quiet.usualSheets).toBeLessThan(0.6 * rollsToBring(aBooking(), 400, []).usualSheets);
  });

  it("are a few for every sort of evening: overnight, of no guests, of one minute", () => {
    expect(
      rollsToBring(aBooking({ closeAtMs: sixAtMs + 30 * hourMs, guests: 5_000 }), 400, []).bring,
    ).toBeLessThan(60);
    expect(rollsToBring(aBooking({ guests: 0 }), 400, []).bring).toBeGreaterThanOrEqual(2);
    expect(
      rollsToBring(aBooking({ closeAtMs: sixAtMs + minuteMs, guests: 1 }), 400, []).bring,
    ).toBeGreaterThanOrEqual(1);
  });
});

/** A wedding of 150 guests with so few sessions, two sheets each. */
function aPastEvening(at: number, sessions: number): PastEvening {
  const openAtMs = sixAtMs - (at + 1) * 7 * 24 * hourMs;
  return {
    ...{ eventKind: "wedding", openAtMs, closeAtMs: openAtMs + 5 * hourMs, guests: 150 },
    ...{
      sessions,
      sheets: 2 * sessions,
      sheetsPer15Min: Array.from({ length: 20 }, () => (2 * sessions) / 20),
    },
  };
}
