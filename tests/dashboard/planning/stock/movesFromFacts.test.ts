import type { StoredItem } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { movesFromFacts, type RollWindow } from "../../../../dashboard/planning/stock/movesFromFacts.ts";
import { minuteMs, sixAtMs } from "../../../support/aStoredItem.ts";

const booth = { boothId: "juniper", kitSheets: 400 };
const window: RollWindow = {
  ...{ fromAtMs: sixAtMs - 3_600_000, toAtMs: sixAtMs + 6 * 3_600_000 },
  ...{ bookingId: "fair", hasOwnRolls: false },
};

type Said = Partial<StoredItem> & Pick<StoredItem, "kind">;

/** Words of a person at the booth, numbered from 1, so many minutes after six. */
function said(...all: readonly [number, Said][]): StoredItem[] {
  return all.map(
    ([minutes, over], at) =>
      ({
        ...{ class: "fact", seq: at + 1, atMs: sixAtMs + minutes * minuteMs, monoMs: 0, source: "dashboard" },
        ...{ boothId: "juniper", bootId: "dashboard", receivedAtMs: sixAtMs + minutes * minuteMs, by: "Ama" },
        ...over,
      }) as StoredItem,
  );
}

const fitted = (sheets = 400): Said => ({ kind: "rollFitted", sheets });
const off = (sheetsLeft: number | null): Said => ({ kind: "rollTakenOff", sheetsLeft });
const back = (factSeq: number): Said => ({ kind: "takenBack", factBootId: "dashboard", factSeq });

/** "case:juniper>used 1", "used>case:juniper part 158". */
function inShort(facts: StoredItem[], over: Partial<RollWindow> = {}): string[] {
  return movesFromFacts(facts, booth, { ...window, ...over }).map(
    ({ fromPlace, toPlace, rolls, partialSheets }) =>
      `${fromPlace}>${toPlace} ${partialSheets === null ? rolls : `part ${partialSheets}`}`,
  );
}

describe("moves from what was said at a booth", () => {
  it("use a roll for each that is put in, and give back what is left on one that comes off", () => {
    const facts = said([0, fitted()], [60, off(158)], [61, fitted()], [150, off(20)], [151, fitted(158)]);
    expect(inShort(facts)).toEqual([
      "case:juniper>used 1",
      "used>case:juniper part 158",
      "case:juniper>used 1",
      "used>case:juniper part 20",
      "case:juniper>used part 158",
    ]);
  });

  it("take the rolls from the event when some were loaded for it", () => {
    expect(inShort(said([0, fitted()]), { hasOwnRolls: true })).toEqual(["event:fair>used 1"]);
  });

  it("are none for a word that was taken back, and are there again when that is taken back", () => {
    expect(inShort(said([0, fitted()], [5, back(1)]))).toEqual([]);
    expect(inShort(said([0, fitted()], [5, back(1)], [9, back(2)]))).toEqual(["case:juniper>used 1"]);
  });

  it("come anew from a word that is told late", () => {
    const [first, second] = said([0, fitted()], [90, fitted()]);
    if (first === undefined || second === undefined) throw new Error("two words were said");
    expect(inShort([second])).toEqual(["case:juniper>used 1"]);
    expect(inShort([second, first])).toHaveLength(2);
  });

  it("are known by the same key each time they are worked out", () => {
    const facts = said([0, fitted()], [60, off(158)]);
    const keys = () => movesFromFacts(facts, booth, window).map(({ onceKey }) => onceKey);
    expect(new Set(keys()).size).toBe(2);
    expect(keys()).toEqual(keys());
  });

  it("count a roll once that a meter showed and a person told of", () => {
    const meter = (leftPct: number): Said => ({
      ...{ kind: "media", queue: "q", part: "kit", sheetsLeft: null, leftPct, ageMs: null, source: "ipp" },
    });
    const facts = said([0, meter(8)], [10, meter(100)], [12, fitted()]);
    expect(inShort(facts)).toEqual(["case:juniper>used 1"]);
    expect(inShort(facts.slice(0, 2))).toEqual(["case:juniper>used 1"]);
  });

  it("leave out what is of another window", () => {
    expect(inShort(said([0, fitted()]), { fromAtMs: sixAtMs + 1 })).toEqual([]);
  });
});
