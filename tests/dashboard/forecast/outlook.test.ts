import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { isSameAhead, outlookOf, whatIfsOf } from "../../../dashboard/forecast/index.ts";
import { reduceBooth } from "../../../dashboard/booth/boothState.ts";
import type { LookedAhead, OutlookMemo } from "../../../dashboard/forecast/outlook.ts";
import { outlook as outlookSchema, type Outlook } from "@boothward/shared-types";
import { anOutlook } from "../../support/anOutlook.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateAfter, stateOf } from "../../support/aBooth.ts";
import { anyItems } from "../../support/anyItems.ts";
import {
  aStoredItem,
  hourMs,
  minuteMs,
  printsFrom,
  sixAtMs,
  type StoryLine,
} from "../../support/aStoredItem.ts";

const at = (minute: number) => sixAtMs + minute * minuteMs;
const booked = aBookedTime({ guests: 150 });

function outlookAfter(minute: number, lines: readonly StoryLine[], over: Partial<typeof booked> = {}) {
  return outlookOf(stateOf(lines), { ...booked, ...over }, aBooth(), at(minute), [], null).outlook;
}

/** A roll, and one sheet a minute until 20:00. */
const steady = (sheets: number): StoryLine[] => [[-30, "rollFitted", { sheets }], ...printsFrom(0, 120, 120)];

function numbersOf(outlook: Outlook): number[] {
  const { media } = outlook;
  if (media === null) return [];
  const fan = media.fan.flatMap((point) => [point.atMs, point.p10, point.p50, point.p90]);
  const empty = Object.values(media.emptyAtMs).filter((each) => each !== null);
  return [media.sheetsPerHour, media.lastsChance, ...Object.values(media.leftAtClose), ...fan, ...empty];
}

function widthOf(media: Outlook["media"]): number {
  return (media?.leftAtClose.p90 ?? 0) - (media?.leftAtClose.p10 ?? 0);
}

describe("an outlook", () => {
  it("says nothing without a booking, and nothing of a roll nobody knows", () => {
    const state = stateOf(steady(400));
    expect(outlookOf(state, null, aBooth(), at(120), [], null).outlook).toEqual(anOutlook(at(120)));
    expect(outlookAfter(120, printsFrom(0, 120, 120)).media).toBeNull();
  });

  it("goes on at about the rate of late, the middle of the fan falling with it", () => {
    const { media } = outlookAfter(120, steady(400));
    expect(media?.sheetsPerHour).toBeGreaterThan(52);
    expect(media?.sheetsPerHour).toBeLessThan(62);
    // 280 left, three hours at about 57 an hour: about 110 at the close.
    expect(media?.leftAtClose.p50).toBeGreaterThan(85);
    expect(media?.leftAtClose.p50).toBeLessThan(150);
    expect(media?.lastsChance).toBeGreaterThan(0.85);
  });

  it("sees a roll fall short, by when, and by how much", () => {
    const { media } = outlookAfter(120, steady(200));
    // 80 left at about 57 an hour: empty after about 84 minutes.
    expect(media?.emptyAtMs.p50).toBeGreaterThan(at(120 + 70));
    expect(media?.emptyAtMs.p50).toBeLessThan(at(120 + 100));
    expect(media?.leftAtClose.p50).toBeLessThan(-50);
    expect(media?.lastsChance).toBeLessThan(0.1);
  });

  it("runs in steps of five minutes of the evening from what is left now to the close", () => {
    const fan = outlookAfter(122, steady(400)).media?.fan ?? [];
    expect(fan[0]).toEqual({ atMs: at(122), p10: 280, p50: 280, p90: 280 });
    expect(fan[1]?.atMs).toBe(at(125));
    expect(fan[2]?.atMs).toBe(at(130));
    expect(fan.at(-1)?.atMs).toBe(booked.closeAtMs);
  });

  it("follows a rush sooner than the evening's mean, and a lull too", () => {
    const quiet: StoryLine[] = [[-30, "rollFitted"], ...printsFrom(0, 120, 40)];
    const rush = outlookAfter(180, [...quiet, ...printsFrom(120, 180, 90)]).media;
    const lull = outlookAfter(180, [...quiet, ...printsFrom(120, 180, 4)]).media;
    expect(rush?.sheetsPerHour).toBeGreaterThan(40);
    expect(lull?.sheetsPerHour).toBeLessThan(20);
  });

  it("does not take time in which the booth could not print for quiet", () => {
    const before: StoryLine[] = [[-30, "rollFitted"], ...printsFrom(0, 90, 90)];
    const jam: StoryLine = [90, "printerState", { state: "stopped", reasons: ["media-jam"] }];
    const stopped = outlookAfter(120, [...before, jam]).media?.sheetsPerHour ?? 0;
    const quiet = outlookAfter(120, before).media?.sheetsPerHour ?? 0;
    expect(stopped).toBeGreaterThan(50);
    expect(quiet).toBeLessThan(40);
  });

  it("is wider when sheets come in groups", () => {
    const roll: StoryLine = [-30, "rollFitted"];
    const singles = outlookAfter(120, [roll, ...printsFrom(0, 120, 120, 1)]).media;
    const groups = outlookAfter(120, [roll, ...printsFrom(0, 120, 30, 4)]).media;
    expect(widthOf(groups)).toBeGreaterThan(widthOf(singles));
  });

  it("widens by what is in doubt about the roll", () => {
    const doubt: StoryLine[] = [...steady(400), [121, "media", { sheetsLeft: 200 }]];
    const fan = outlookAfter(122, doubt).media?.fan ?? [];
    expect(fan[0]).toMatchObject({ p10: 200, p50: 200, p90: 280 });
  });
});

describe("before the opening", () => {
  const roll: StoryLine[] = [[-60, "rollFitted"]];

  it("goes by the guests, and stays level until the doors open", () => {
    const { media } = outlookAfter(-30, roll);
    const fan = media?.fan ?? [];
    expect(
      fan.filter(({ atMs }) => atMs <= sixAtMs).every(({ p10, p90 }) => p10 === 400 && p90 === 400),
    ).toBe(true);
    // 150 guests, of whom seven in ten come once, for a sheet and a half or two: about 190 sheets.
    expect(media?.leftAtClose.p50).toBeGreaterThan(160);
    expect(media?.leftAtClose.p50).toBeLessThan(300);
  });

  it("is less sure when the guests are not known", () => {
    const known = outlookAfter(-30, roll).media;
    const unknown = outlookAfter(-30, roll, { guests: null }).media;
    expect(widthOf(unknown)).toBeGreaterThan(widthOf(known));
  });

  it("does not count test prints for the evening", () => {
    const tests = [...roll, ...printsFrom(-50, -10, 40)];
    expect(outlookAfter(10, tests).media?.sheetsPerHour).toBeLessThan(45);
  });
});

it("after the close, everything lasts and nothing lies ahead", () => {
  const { media } = outlookAfter(301, steady(200));
  expect(media).toMatchObject({ fan: [], lastsChance: 1, emptyAtMs: { p10: null, p50: null, p90: null } });
  expect(media?.leftAtClose).toEqual({ p10: 80, p50: 80, p90: 80 });
});

describe("whatever came", () => {
  const anyBooked = fc
    .record({
      openHour: fc.integer({ min: -3, max: 3 }),
      hours: fc.integer({ min: 1, max: 9 }),
      guests: fc.option(fc.nat(2000)),
      sheetsLoaded: fc.option(fc.nat(800)),
    })
    .map(({ openHour, hours, ...over }) =>
      aBookedTime({ openAtMs: at(60 * openHour), closeAtMs: at(60 * (openHour + hours)), ...over }),
    );
  const anyMinute = fc.integer({ min: -300, max: 900 });

  it("is numbers in order: the band, the empty times, the chance", () => {
    fc.assert(
      fc.property(anyItems(50), anyBooked, anyMinute, (items, booking, minute) => {
        const outlook = outlookOf(stateAfter(items), booking, aBooth(), at(minute), [], null).outlook;
        expect(numbersOf(outlook).every(Number.isFinite)).toBe(true);
        expect(outlookSchema.parse(outlook)).toEqual(outlook);
        if (outlook.media === null) return;
        const { fan, leftAtClose, emptyAtMs, lastsChance, sheetsPerHour } = outlook.media;
        for (const { p10, p50, p90 } of [...fan, leftAtClose]) expect(p10 <= p50 && p50 <= p90).toBe(true);
        const [first = Infinity, middle = Infinity, last = Infinity] = [
          emptyAtMs.p10,
          emptyAtMs.p50,
          emptyAtMs.p90,
        ].map((each) => each ?? Infinity);
        expect(first <= middle && middle <= last).toBe(true);
        for (const each of [emptyAtMs.p10, emptyAtMs.p50, emptyAtMs.p90]) {
          expect(each === null || (each >= at(minute) && each <= booking.closeAtMs)).toBe(true);
        }
        expect(lastsChance >= 0 && lastsChance <= 1 && sheetsPerHour >= 0).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  it("lasts the better the more is left, and is empty no sooner", () => {
    fc.assert(
      fc.property(fc.nat(500), fc.nat(200), fc.integer({ min: 10, max: 290 }), (sheets, more, minute) => {
        const lines = (left: number): StoryLine[] => [
          ...printsFrom(0, minute - 1, 60),
          [minute, "correction", { sheetsLeft: left }],
        ];
        const less = outlookAfter(minute, lines(sheets)).media;
        const plenty = outlookAfter(minute, lines(sheets + more)).media;
        if (less === null || plenty === null) throw new Error("no outlook");
        expect(plenty.lastsChance).toBeGreaterThanOrEqual(less.lastsChance);
        expect(plenty.leftAtClose.p50 - less.leftAtClose.p50).toBe(more);
        for (const share of ["p10", "p50", "p90"] as const) {
          expect(plenty.emptyAtMs[share] ?? Infinity).toBeGreaterThanOrEqual(
            less.emptyAtMs[share] ?? Infinity,
          );
        }
      }),
      { numRuns: 60 },
    );
  });

  it("is the same when it is asked again", () => {
    fc.assert(
      fc.property(anyItems(30), anyBooked, anyMinute, (items, booking, minute) => {
        const ask = () => outlookOf(stateAfter(items), booking, aBooth(), at(minute), [], null).outlook;
        expect(ask()).toStrictEqual(ask());
      }),
      { numRuns: 30 },
    );
  });

  it("falls as the fan goes on", () => {
    const fan = outlookAfter(120, steady(400)).media?.fan ?? [];
    for (const share of ["p10", "p50", "p90"] as const) {
      fan
        .slice(1)
        .forEach((point, index) => expect(point[share]).toBeLessThanOrEqual(fan[index]?.[share] ?? Infinity));
    }
    expect(fan.length).toBe(3 * (hourMs / minuteMs / 5) + 1);
  });

  it("is the same with the memo of an earlier look and without", () => {
    const story = [...steady(400), ...printsFrom(120, 240, 60)];
    let memo: OutlookMemo | null = null;
    for (let minute = 0; minute <= 240; minute += 20) {
      const lines = story.filter(([lineMinute]) => lineMinute <= minute);
      const look = (before: OutlookMemo | null): LookedAhead =>
        outlookOf(stateOf(lines), booked, aBooth(), at(minute), [], before);
      const looked = look(memo);
      expect(looked.outlook).toStrictEqual(look(null).outlook);
      memo = looked.memo;
    }
  });
});

describe("what is aboard", () => {
  const roll: StoryLine[] = steady(400);
  const off: StoryLine = [121, "rollTakenOff", { sheetsLeft: 280 }];
  const rolls = (story: readonly StoryLine[], spareRolls: number) =>
    outlookAfter(125, story, { spareRolls }).media?.rolls;

  it("is the plan's spares less those fitted since the opening", () => {
    expect(rolls([...roll, off, [122, "rollFitted"]], 2)?.spares).toBe(1);
  });

  it("has with it the rolls that came off before their end", () => {
    const small: StoryLine = [122, "rollFitted", { sheets: 100 }];
    const without = rolls([...roll, small], 0)?.lastsChance ?? 1;
    expect(without).toBeLessThan(0.5);
    expect(rolls([...roll, off, small], 0)?.lastsChance).toBeGreaterThan(0.9);
  });
});

describe("what if", () => {
  const ifs = whatIfsOf(stateOf(steady(400)), booked, aBooth(), at(120), [], null);

  it("asks for no fewer sheets the longer the evening goes on", () => {
    const longer = ifs.filter(({ isOnePrint }) => !isOnePrint);
    const chances = longer.map(({ lastsChance }) => lastsChance);
    expect(longer.map(({ extraMin }) => extraMin)).toEqual([0, 15, 30, 45, 60, 75, 90, 105, 120]);
    expect([...chances].sort((a, b) => b - a)).toEqual(chances);
  });

  it("says nothing without a booking", () => {
    expect(whatIfsOf(stateOf(steady(400)), null, aBooth(), at(120), [], null)).toEqual([]);
  });
});

describe("two states of a booth", () => {
  const story = steady(400);

  it("look ahead alike when only a temperature came between", () => {
    const before = stateOf(story);
    const warmer = reduceBooth(before, { ...aStoredItem("inside"), atMs: at(121) });
    expect(isSameAhead(before, warmer)).toBe(true);
    const printed = reduceBooth(before, { ...aStoredItem("print"), printId: "one-more", atMs: at(121) });
    expect(isSameAhead(before, printed)).toBe(false);
  });
});
