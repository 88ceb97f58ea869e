import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mediaNow } from "../../../dashboard/booth/mediaNow.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateAfter, stateOf } from "../../support/aBooth.ts";
import { hourMs, minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";
import { anyItems } from "../../support/anyItems.ts";

const booth = aBooth();
const noPlan = aBookedTime({ sheetsLoaded: null });

function leftAfter(...lines: StoryLine[]) {
  const media = mediaNow(stateOf(lines), booth, noPlan);
  return media === null ? null : { sheetsLeft: media.sheetsLeft, figure: media.figure };
}

const roll: StoryLine = [0, "rollFitted", { sheets: 400 }];

describe("counted", () => {
  it("knows nothing before a roll, a meter or a plan", () => {
    expect(leftAfter(...printsFrom(0, 10, 10))).toBeNull();
  });

  // Common practice, no source: 60 sessions x two 4x6 + 100 x two strips + 10 x 6x8 = 240 pitches, 400 becomes 160.
  it("takes the pitches of each print off the roll that was fitted", () => {
    const prints = [
      ...printsFrom(0, 60, 60, 2),
      ...printsFrom(60, 160, 100, 1),
      ...printsFrom(160, 170, 10, 2),
    ];
    expect(leftAfter(roll, ...prints)).toEqual({ sheetsLeft: 160, figure: "counted" });
  });

  it("counts a print once whose id comes twice", () => {
    const twice: StoryLine[] = [
      [1, "print", { printId: "p", pitches: 2 }],
      [2, "print", { printId: "p", pitches: 2 }],
    ];
    expect(leftAfter(roll, ...twice)).toEqual({ sheetsLeft: 398, figure: "counted" });
  });

  it("begins at what the plan says was loaded, until a roll is fitted", () => {
    const plan = aBookedTime({ sheetsLoaded: 170 });
    const prints = printsFrom(-90, 30, 20);
    expect(mediaNow(stateOf(prints), booth, plan)).toMatchObject({ sheetsLeft: 150, figure: "counted" });
    const fitted = stateOf([...prints, [31, "rollFitted", { sheets: 400 }], [32, "print"]]);
    expect(mediaNow(fitted, booth, plan)).toMatchObject({ sheetsLeft: 399 });
  });

  it("takes a roll of the last event for gone when the plan says what was loaded", () => {
    const state = stateOf([[-1000, "rollFitted", { sheets: 400 }], ...printsFrom(-999, -900, 300)]);
    expect(mediaNow(state, booth, aBookedTime({ sheetsLoaded: 400 }))).toMatchObject({ sheetsLeft: 400 });
    expect(mediaNow(state, booth, noPlan)).toMatchObject({ sheetsLeft: 100 });
  });

  it("never says less than nothing", () => {
    expect(leftAfter([0, "rollFitted", { sheets: 5 }], ...printsFrom(1, 9, 8))?.sheetsLeft).toBe(0);
  });
});

describe("metered", () => {
  it("carries the meter forward by what was printed since", () => {
    expect(leftAfter([0, "media", { sheetsLeft: 200 }], ...printsFrom(0, 9, 9))).toEqual({
      sheetsLeft: 191,
      figure: "metered",
    });
  });

  it("counts from the meter's own time, however late it is read", () => {
    const prints = printsFrom(0, 60, 60);
    const late: StoryLine = [60.5, "media", { sheetsLeft: 200, ageMs: 30.25 * minuteMs }];
    expect(leftAfter(...prints, late)?.sheetsLeft).toBe(170);
  });

  // Common practice, no source: paper and ribbon are matched, what is left is the smaller.
  it("takes the smallest of the parts", () => {
    const parts: StoryLine[] = [
      [0, "media", { part: "Paper", sheetsLeft: 120 }],
      [0.1, "media", { part: "Dye ribbon", sheetsLeft: 90 }],
    ];
    expect(leftAfter(...parts)?.sheetsLeft).toBe(90);
  });

  it("reads percent against what a kit holds, whatever kit is set", () => {
    const state = stateOf([[0, "media", { sheetsLeft: null, leftPct: 25 }]]);
    expect(mediaNow(state, aBooth({ kitSheets: 400 }), noPlan)?.sheetsLeft).toBe(100);
    expect(mediaNow(state, aBooth({ kitSheets: 700 }), noPlan)?.sheetsLeft).toBe(175);
  });

  it("forgets a part that no longer has a figure", () => {
    const unknown: StoryLine = [5, "media", { sheetsLeft: null, leftPct: null }];
    expect(leftAfter([0, "media", { sheetsLeft: 200 }], unknown)).toBeNull();
    expect(leftAfter(roll, [1, "media", { sheetsLeft: 400 }], ...printsFrom(1, 4, 3), unknown)).toEqual({
      sheetsLeft: 397,
      figure: "counted",
    });
  });

  it("does not take off twice the sheets of a job that the meter saw going on", () => {
    const job = (minute: number, left: number): StoryLine[] => [
      [minute, "media", { sheetsLeft: left + 1 }],
      [minute + 0.2, "media", { sheetsLeft: left }],
      [minute + 0.3, "print", { pitches: 2 }],
    ];
    const start: StoryLine = [0, "media", { sheetsLeft: 100 }];
    expect(leftAfter(start, ...job(1, 98))?.sheetsLeft).toBe(98);
    expect(leftAfter(start, ...job(1, 98), ...job(5, 96), ...job(9, 94))?.sheetsLeft).toBe(94);
  });

  it("stays with the meter when sheets were wasted that nobody counted", () => {
    const waste: StoryLine[] = [[10, "media", { sheetsLeft: 196 }], ...printsFrom(20, 30, 10)];
    expect(leftAfter([0, "media", { sheetsLeft: 200 }], ...waste)?.sheetsLeft).toBe(186);
  });

  it("says zero when the printer says that it is empty, and goes back when it no longer does", () => {
    const empty: StoryLine = [5, "printerState", { state: "processing", reasons: ["media-empty-error"] }];
    const again: StoryLine = [6, "printerState", { state: "idle", reasons: [] }];
    const start: StoryLine = [0, "media", { sheetsLeft: 12 }];
    expect(leftAfter(start, empty)).toEqual({ sheetsLeft: 0, figure: "metered" });
    expect(leftAfter(start, empty, again)?.sheetsLeft).toBe(12);
  });
});

describe("meter and count together", () => {
  it("goes by the meter while they differ by no more than 3 % of a kit", () => {
    const prints = printsFrom(0, 100, 100);
    expect(leftAfter(roll, ...prints, [101, "media", { sheetsLeft: 288 }])).toEqual({
      sheetsLeft: 288,
      figure: "metered",
    });
  });

  it("doubts and takes the smaller when they differ by more", () => {
    const prints = printsFrom(0, 100, 100);
    const state = stateOf([roll, ...prints, [101, "media", { sheetsLeft: 287 }]]);
    expect(mediaNow(state, booth, noPlan)).toMatchObject({
      ...{ sheetsLeft: 287, lowSheets: 287, highSheets: 300, figure: "doubtful" },
    });
  });

  it("leaves two sheets of difference to the smallest kits", () => {
    const small = aBooth({ kitSheets: 20 });
    const at = (sheetsLeft: number) =>
      mediaNow(
        stateOf([
          [0, "rollFitted", { sheets: 20 }],
          [1, "media", { sheetsLeft }],
        ]),
        small,
        noPlan,
      )?.figure;
    expect([at(18), at(17)]).toEqual(["metered", "doubtful"]);
  });

  it("trusts the count beside a meter that moves in tenths", () => {
    const coarse: StoryLine[] = [
      [0.5, "media", { sheetsLeft: null, leftPct: 100 }],
      ...printsFrom(1, 40, 39),
      [41, "media", { sheetsLeft: null, leftPct: 90 }],
      ...printsFrom(41, 51, 10),
    ];
    expect(leftAfter(roll, ...coarse)).toEqual({ sheetsLeft: 351, figure: "counted" });
  });

  it("widens the range by a step when a coarse meter stands alone", () => {
    const state = stateOf([[0, "media", { sheetsLeft: null, leftPct: 50 }]]);
    expect(mediaNow(state, booth, noPlan)).toMatchObject({
      sheetsLeft: 200,
      lowSheets: 160,
      highSheets: 240,
    });
  });

  it("ignores what the meter said before the roll was changed", () => {
    expect(leftAfter([-30, "media", { sheetsLeft: 12 }], roll, [1, "print"])).toEqual({
      sheetsLeft: 399,
      figure: "counted",
    });
  });
});

describe("a person's word", () => {
  it("confirms, and prints are taken off what was confirmed", () => {
    const told: StoryLine[] = [[30, "correction", { sheetsLeft: 150 }], ...printsFrom(30, 40, 10)];
    expect(leftAfter(roll, ...printsFrom(0, 20, 20), ...told)).toEqual({
      sheetsLeft: 140,
      figure: "confirmed",
    });
  });

  it("stands against a meter that is wrong, by as much as it was wrong then", () => {
    const told: StoryLine[] = [
      [0, "media", { sheetsLeft: 300 }],
      [30, "correction", { sheetsLeft: 150 }],
    ];
    expect(leftAfter(...told)).toEqual({ sheetsLeft: 150, figure: "confirmed" });
    const goesOn: StoryLine[] = [
      [40, "media", { sheetsLeft: 299 }],
      [40.1, "print"],
    ];
    expect(leftAfter(...told, ...goesOn)).toEqual({ sheetsLeft: 149, figure: "confirmed" });
  });

  it("is doubted when the meter then says something else again", () => {
    const told: StoryLine[] = [
      [0, "media", { sheetsLeft: 300 }],
      [30, "correction", { sheetsLeft: 298 }],
      [40, "media", { sheetsLeft: 250 }],
    ];
    expect(leftAfter(...told)).toEqual({ sheetsLeft: 248, figure: "doubtful" });
  });

  it("goes on with a meter that since then has seen what nobody counted", () => {
    const told: StoryLine[] = [
      [0, "media", { sheetsLeft: 300 }],
      [30, "correction", { sheetsLeft: 298 }],
      [40, "media", { sheetsLeft: 296 }],
    ];
    expect(leftAfter(...told)).toEqual({ sheetsLeft: 294, figure: "confirmed" });
  });
});

describe("whatever comes", () => {
  it("gives whole sheets from 0 up, the low figure first, in a range that holds the figure", () => {
    fc.assert(
      fc.property(anyItems(40), fc.option(fc.integer({ min: 0, max: 700 })), (items, sheetsLoaded) => {
        const media = mediaNow(stateAfter(items), booth, aBookedTime({ sheetsLoaded }));
        if (media === null) return;
        const { lowSheets, sheetsLeft, highSheets } = media;
        expect([lowSheets, sheetsLeft, highSheets].every((n) => Number.isInteger(n) && n >= 0)).toBe(true);
        expect([lowSheets, sheetsLeft, highSheets]).toEqual(
          [lowSheets, sheetsLeft, highSheets].sort((a, b) => a - b),
        );
        expect(Number.isFinite(media.atMs)).toBe(true);
      }),
    );
  });

  it("never has more left after a print than before it, unless a roll was put in", () => {
    const meter = fc.integer({ min: 0, max: 400 });
    fc.assert(
      fc.property(meter, meter, fc.integer({ min: 1, max: 6 }), (sheets, sheetsLeft, pitches) => {
        const before: StoryLine[] = [
          [0, "rollFitted", { sheets: sheets + 1 }],
          [1, "media", { sheetsLeft }],
        ];
        const left = leftAfter(...before)?.sheetsLeft ?? 0;
        const then = leftAfter(...before, [5, "print", { pitches }])?.sheetsLeft ?? 0;
        expect(then).toBe(Math.max(0, left - pitches));
      }),
    );
  });
});

it("counts over an event longer than the bins reach back", () => {
  const long: StoryLine[] = [roll, ...printsFrom(0, 300, 100), ...printsFrom(44 * 60, 45 * 60, 10)];
  const state = stateOf(long);
  expect(mediaNow(state, booth, noPlan)?.sheetsLeft).toBe(290);
  expect(state.bins[0]?.atMs).toBeGreaterThan(sixAtMs + 5 * hourMs);
});

describe("a meter that is no longer there", () => {
  it("leaves the doubt that it raised", () => {
    const small: StoryLine = [0, "rollFitted", { sheets: 250 }];
    const wobble: StoryLine[] = [
      [1, "media", { sheetsLeft: 250 }],
      [20, "media", { sheetsLeft: 326 }],
      [21, "media", { sheetsLeft: 250 }],
    ];
    const risen: StoryLine[] = [small, ...wobble, [60, "media", { sheetsLeft: 400 }]];
    expect(leftAfter(...risen)).toMatchObject({ figure: "doubtful" });
    expect(leftAfter(...risen, [90, "media", { sheetsLeft: null, leftPct: null }])).toMatchObject({
      figure: "doubtful",
    });
  });

  it("leaves the count where the two agreed", () => {
    const gone: StoryLine = [90, "media", { sheetsLeft: null, leftPct: null }];
    const agreed: StoryLine[] = [roll, [1, "media", { sheetsLeft: 400 }], ...printsFrom(2, 60, 20)];
    expect(leftAfter(...agreed, gone)).toEqual({ sheetsLeft: 380, figure: "counted" });
  });
});

it("takes a fall without a print for no step of the meter", () => {
  const story: StoryLine[] = [
    [0, "rollFitted", { sheets: 257 }],
    [1, "media", { sheetsLeft: 257 }],
    [20, "media", { sheetsLeft: 252 }],
    [40, "media", { sheetsLeft: 246 }],
  ];
  expect(leftAfter(...story)).toEqual({ sheetsLeft: 246, figure: "metered" });
});
