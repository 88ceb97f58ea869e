import { describe, expect, it } from "vitest";
import { digestText, shortened, type Gathered } from "../../../dashboard/alerts/digestText.ts";
import { floodFromAtMs, isFirstNow, type Arriving } from "../../../dashboard/alerts/flood.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

/** Arrivals at these minutes after six. */
const at = (...minutes: number[]) => minutes.map((minute) => ({ atMs: sixAtMs + minute * minuteMs }));
const flooded = (arrivals: { atMs: number }[], minute: number) => {
  const fromAtMs = floodFromAtMs(arrivals, sixAtMs + minute * minuteMs);
  return fromAtMs === null ? null : (fromAtMs - sixAtMs) / minuteMs;
};
const eachMinuteOf = (count: number) => Array.from({ length: count }, (_, index) => index / 10);

describe("a flood", () => {
  // Source: ISA-18.2 / EEMUA 191 (by secondary pages): begins above 10 in ten minutes, ends below 5.
  it("begins with the eleventh notice in ten minutes, and not with the tenth", () => {
    expect(flooded(at(...eachMinuteOf(10)), 1)).toBeNull();
    expect(flooded(at(...eachMinuteOf(11)), 1)).toBe(1);
    expect(flooded(at(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10), 10)).toBeNull();
    expect(flooded(at(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 9.99), 10)).toBe(9.99);
  });

  it("lasts while five come in ten minutes, and ends when fewer did", () => {
    const first = eachMinuteOf(11);
    expect(flooded(at(...first), 10.59)).toBe(1);
    expect(flooded(at(...first), 10.6)).toBeNull();
    const goesOn = [...first, 2.9, 4.8, 6.7, 8.6, 10.5, 12.4];
    expect(flooded(at(...goesOn), 14)).toBe(1);
    expect(flooded(at(...goesOn), 14.8)).toBeNull();
  });

  it("that has ended begins anew only above ten again", () => {
    const arrivals = [...eachMinuteOf(11), 30, 30.1, 30.2, 30.3, 30.4, 30.5];
    expect(flooded(at(...arrivals), 31)).toBeNull();
    expect(flooded(at(...arrivals, ...eachMinuteOf(5).map((minute) => 30.6 + minute)), 32)).toBe(31);
  });

  it("is none where nothing arrives", () => {
    expect(flooded([], 0)).toBeNull();
  });

  it("lets the first now of each booth through, and no other", () => {
    const now = (boothId: string, minute: number): Arriving => ({
      ...{ atMs: sixAtMs + minute * minuteMs, severity: "actNow", boothId },
    });
    const before = [now("juniper", -1), now("sorrel", 2)];
    expect(isFirstNow(now("juniper", 3), before, sixAtMs)).toBe(true);
    expect(isFirstNow(now("sorrel", 3), before, sixAtMs)).toBe(false);
    expect(isFirstNow({ severity: "plan", boothId: "thistle" }, before, sixAtMs)).toBe(false);
  });
});

describe("the text of a digest", () => {
  const one = (over: Partial<Gathered> = {}): Gathered => ({
    ...{ severity: "plan", boothId: "juniper", text: "Juniper needs a roll by 20:40." },
    ...over,
  });
  const jam = one({ severity: "actNow", boothId: "sorrel", text: "Sorrel's printer is jammed: clear it." });

  it("names how many, at how many booths, and the worst first", () => {
    expect(digestText([one(), one(), jam, one({ boothId: "thistle" })])).toBe(
      "4 alerts at 3 booths, 1 now. First: Sorrel's printer is jammed: clear it.",
    );
    expect(digestText([one(), one({ text: "Juniper has the sun on its printer from 19:10." })])).toBe(
      "2 alerts at one booth. First: Juniper needs a roll by 20:40.",
    );
  });

  it("of one alone is its own", () => {
    expect(digestText([jam])).toBe(jam.text);
  });

  it("is never longer than 110 characters, and is cut between words", () => {
    const long = one({ text: "Juniper needs a roll by 20:40 and then another word ".repeat(4) });
    for (const gathered of [[long], [long, jam], Array.from({ length: 500 }, () => long)]) {
      expect(digestText(gathered).length).toBeLessThanOrEqual(110);
    }
    expect(shortened(long.text)).toMatch(/(word|another|then|and|Juniper|needs|a|roll|by|20:40)…$/);
    expect(shortened("x".repeat(200))).toHaveLength(110);
  });
});
