import { describe, expect, it } from "vitest";
import { mediaNow } from "../../../dashboard/booth/mediaNow.ts";
import { mediaQuestion } from "../../../dashboard/booth/mediaQuestion.ts";
import { rollsAboard } from "../../../dashboard/booth/rollsAboard.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateOf } from "../../support/aBooth.ts";
import { minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const noPlan = aBookedTime({ sheetsLoaded: null, spareRolls: 2 });

function leftAfter(...lines: StoryLine[]) {
  const media = mediaNow(stateOf(lines), aBooth({ changeWasteSheets: 2 }), noPlan);
  return media === null ? null : { sheetsLeft: media.sheetsLeft, figure: media.figure };
}

function aboardAfter(...lines: StoryLine[]) {
  return rollsAboard(stateOf(lines), aBooth(), noPlan);
}

const roll: StoryLine = [0, "rollFitted", { sheets: 400 }];
const seen: StoryLine = [0.1, "media", { sheetsLeft: 398 }];

describe("the waste of a change", () => {
  // Common practice, no source: a change wastes 1 to 4 sheets.
  it("is what the booth usually wastes, until a person says how much it was", () => {
    expect(leftAfter(roll)).toEqual({ sheetsLeft: 398, figure: "counted" });
    expect(leftAfter(roll, [1, "waste", { pitches: 4 }])).toEqual({ sheetsLeft: 396, figure: "counted" });
  });

  it("is not taken off once more from a meter that has seen it", () => {
    expect(leftAfter(roll, seen, [1, "waste", { pitches: 2 }])).toEqual({
      ...{ sheetsLeft: 398, figure: "metered" },
    });
  });

  it("is not taken off once more when the first word of the roll was mistyped", () => {
    const again: StoryLine[] = [
      [1, "rollFitted", { sheets: 400 }],
      [2, "waste", { pitches: 2 }],
    ];
    expect(leftAfter([0, "rollFitted", { sheets: 398 }], seen, ...again)?.sheetsLeft).toBe(398);
  });

  it("is taken off a meter that moves only with the next print", () => {
    const stuck: StoryLine = [0.1, "media", { sheetsLeft: 400 }];
    expect(leftAfter(roll, stuck, [1, "waste", { pitches: 2 }])?.sheetsLeft).toBe(398);
  });
});

describe("a meter of paper and one of ribbon", () => {
  const parts = (minute: number, paper: number): StoryLine[] => [
    [minute, "media", { part: "Dye ribbon", sheetsLeft: paper + 5 }],
    [minute + 0.001, "media", { part: "Paper", sheetsLeft: paper }],
  ];

  it("jump as one roll, as long as the shorter of them", () => {
    const gone: StoryLine[] = [
      [8, "media", { part: "Dye ribbon", sheetsLeft: null }],
      [8, "media", { part: "Paper", sheetsLeft: null }],
    ];
    const told = [...parts(0, 20), ...parts(5, 400), ...gone, ...printsFrom(9, 19, 10)];
    expect(stateOf(told).media.changes).toHaveLength(1);
    expect(leftAfter(...told)).toEqual({ sheetsLeft: 390, figure: "counted" });
  });
});

describe("a meter that is lost and found", () => {
  const lost: StoryLine = [40, "media", { sheetsLeft: null }];

  it("has missed the change that it shows when it is back", () => {
    const low: StoryLine[] = [
      [0, "media", { sheetsLeft: 60 }],
      ...printsFrom(1, 30, 20),
      [31, "media", { sheetsLeft: 40 }],
    ];
    expect(leftAfter(...low, lost, [90, "media", { sheetsLeft: 398 }])).toEqual({
      ...{ sheetsLeft: 398, figure: "metered" },
    });
  });

  it("is doubted when it shows what the roll before last had, and not the one told of", () => {
    const told: StoryLine[] = [
      [45, "rollFitted", { sheets: 60 }],
      [90, "media", { sheetsLeft: 398 }],
    ];
    expect(leftAfter(roll, seen, lost, ...told)).toEqual({ sheetsLeft: 58, figure: "doubtful" });
  });

  it("shows another roll than the one told of long before when it rises far above that", () => {
    const told: StoryLine[] = [
      [0, "rollFitted", { sheets: 60 }],
      [0.1, "media", { sheetsLeft: 58 }],
      [20, "rollTakenOff", { sheetsLeft: 58 }],
      [25, "rollFitted", { sheets: 58 }],
      [60, "media", { sheetsLeft: 398 }],
    ];
    expect(leftAfter(...told)).toEqual({ sheetsLeft: 398, figure: "metered" });
  });
});

describe("partial rolls", () => {
  const swap: StoryLine[] = [
    [20, "rollTakenOff", { sheetsLeft: 330 }],
    [20, "rollFitted", { sheets: 120 }],
  ];

  it("come off and another goes on, said at the same instant", () => {
    expect(leftAfter(roll, ...printsFrom(1, 19, 68), ...swap)?.sheetsLeft).toBe(118);
  });

  it("wait aboard until they go on again, and use no spare", () => {
    expect(aboardAfter(roll, ...swap)).toEqual({ spares: 1, partials: [330] });
    const back: StoryLine[] = [
      ...swap,
      [60, "rollTakenOff", { sheetsLeft: 80 }],
      [61, "rollFitted", { sheets: 330 }],
    ];
    expect(aboardAfter(roll, ...back)).toEqual({ spares: 1, partials: [80] });
  });

  it("leave nothing in the printer until one is put in", () => {
    expect(leftAfter(roll, [20, "rollTakenOff", { sheetsLeft: 330 }])).toEqual({
      ...{ sheetsLeft: 0, figure: "confirmed" },
    });
  });
});

describe("words that are taken back", () => {
  const count: StoryLine = [10, "correction", { sheetsLeft: 200 }];
  const undo = (minute: number, factSeq: number): StoryLine => [
    minute,
    "takenBack",
    { factBootId: "boot-1", factSeq },
  ];

  it("were never said, and stand again when the undo is undone", () => {
    expect(leftAfter(roll, count)).toEqual({ sheetsLeft: 200, figure: "confirmed" });
    expect(leftAfter(roll, count, undo(11, 2))).toEqual({ sheetsLeft: 398, figure: "counted" });
    expect(leftAfter(roll, count, undo(11, 2), undo(12, 3))?.sheetsLeft).toBe(200);
    expect(leftAfter(roll, count, undo(11, 2), undo(12, 3), undo(13, 4))?.sheetsLeft).toBe(398);
  });

  it("of one instant count in the order in which they were said", () => {
    const fitted: StoryLine = [10, "rollFitted", { sheets: 400 }];
    expect(leftAfter(count, fitted)?.sheetsLeft).toBe(398);
    expect(leftAfter(fitted, count)?.sheetsLeft).toBe(200);
  });
});

describe("what no roll can hold", () => {
  it("is doubted, with a full kit for the least of it", () => {
    const state = stateOf([[0, "rollFitted", { sheets: 4000 }], ...printsFrom(1, 11, 10)]);
    expect(mediaNow(state, aBooth(), noPlan)).toMatchObject({ sheetsLeft: 390, figure: "doubtful" });
  });

  it("is asked about once", () => {
    const state = stateOf([[0, "rollFitted", { sheets: 4000 }], ...printsFrom(1, 11, 10)]);
    expect(mediaQuestion(state, aBooth(), noPlan)).toEqual({ ask: "left", atMs: sixAtMs, sheets: null });
  });
});

describe("a count that a meter contradicts", () => {
  const apart: StoryLine[] = [
    roll,
    [1, "media", { sheetsLeft: 400 }],
    [30, "correction", { sheetsLeft: 398 }],
  ];
  const state = stateOf([...apart, [40, "media", { sheetsLeft: 350 }]]);

  it("is doubtful, the smaller of both, and the range holds both", () => {
    expect(mediaNow(state, aBooth(), noPlan)).toMatchObject({
      ...{ sheetsLeft: 348, lowSheets: 348, highSheets: 398, figure: "doubtful" },
    });
  });

  it("asks what is left, until a person counts again", () => {
    const asked = mediaQuestion(state, aBooth(), noPlan);
    expect(asked).toMatchObject({ ask: "left", sheets: 350 });
    expect(asked?.atMs).toBe(sixAtMs + 40 * minuteMs);
    const settled = stateOf([
      ...apart,
      [40, "media", { sheetsLeft: 350 }],
      [50, "correction", { sheetsLeft: 349 }],
    ]);
    expect(mediaQuestion(settled, aBooth(), noPlan)).toBeNull();
    expect(mediaNow(settled, aBooth(), noPlan)).toMatchObject({ sheetsLeft: 349, figure: "confirmed" });
  });
});
