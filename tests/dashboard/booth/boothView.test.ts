import { boothView as boothViewSchema, type LeftPoint } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boothView, thinPoints, type BoothScene } from "../../../dashboard/booth/boothView.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aTally } from "../../support/aBoothView.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateAfter, stateOf } from "../../support/aBooth.ts";
import { anyItems } from "../../support/anyItems.ts";
import { hourMs, minuteMs, printsFrom, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

function aScene(over: Partial<BoothScene> = {}): BoothScene {
  return {
    state: stateOf([]),
    outlook: anOutlook(sixAtMs),
    alerts: [],
    booth: aBooth(),
    booking: aBookedTime(),
    counts: aTally(),
    ...{ isLinked: true, heardAtMs: sixAtMs, clockOffMs: null, keptAside: 0, sunsetAtMs: null },
    health: "unknown",
    atMs: sixAtMs + 2 * hourMs,
    ...over,
  };
}

const evening: StoryLine[] = [
  [-200, "rollFitted", { sheets: 100 }],
  [-60, "rollFitted", { sheets: 200 }],
  ...printsFrom(0, 60, 190),
  [70, "rollFitted", { sheets: 400 }],
  ...printsFrom(71, 110, 30),
];

describe("a booth's view", () => {
  it("says null for what is not known", () => {
    const view = boothView(aScene({ booking: null }));
    const { booking, media, printer, inside, power, scenario } = view;
    expect({ booking, media, printer, inside, power, scenario }).toEqual({
      ...{ booking: null, media: null, printer: null, inside: null, power: null, scenario: null },
    });
    expect([view.past, view.faults, view.alerts]).toEqual([[], [], []]);
  });

  it("draws what was left from the booking's beginning on, with a step at a roll change", () => {
    const view = boothView(
      aScene({ state: stateOf(evening), booking: aBookedTime({ fromAtMs: sixAtMs - hourMs }) }),
    );
    expect(view.media).toMatchObject({ sheetsLeft: 370, rollFittedAtMs: sixAtMs + 70 * minuteMs });
    expect(view.rollChangesAtMs).toEqual([sixAtMs - hourMs, sixAtMs + 70 * minuteMs]);
    const atChange = view.past.filter(({ atMs }) => atMs === sixAtMs + 70 * minuteMs);
    expect(atChange.map(({ sheetsLeft }) => sheetsLeft)).toEqual([10, 400]);
    expect(view.past.every(({ atMs }) => atMs >= sixAtMs - hourMs)).toBe(true);
    expect(view.past.at(-1)).toEqual({ atMs: sixAtMs + 110 * minuteMs, sheetsLeft: 370 });
  });

  it("shows the battery as the computer last said it", () => {
    const lines: StoryLine[] = [
      [0, "power", { isOnMains: false, batteryPct: 90 }],
      [10, "host", { batteryPct: 71 }],
    ];
    expect(boothView(aScene({ state: stateOf(lines) })).power).toEqual({
      ...{ isOnMains: false, batteryPct: 71, sinceAtMs: sixAtMs },
    });
  });

  it("fits what the page parses, whatever came", () => {
    fc.assert(
      fc.property(anyItems(40), fc.boolean(), (items, isBooked) => {
        const booking = isBooked ? aBookedTime({ sheetsLoaded: 400 }) : null;
        const view = boothView(aScene({ state: stateAfter(items), booking }));
        expect(boothViewSchema.parse(JSON.parse(JSON.stringify(view)))).toEqual(view);
      }),
    );
  });
});

describe("thinning", () => {
  const points = fc
    .array(fc.integer({ min: 0, max: 400 }), { maxLength: 600 })
    .map((lefts) => lefts.map((sheetsLeft, at) => ({ atMs: at * minuteMs, sheetsLeft })));

  it("leaves at most 120 points in order, with the first, the last, the lowest and the highest", () => {
    fc.assert(
      fc.property(points, (all) => {
        const thin = thinPoints(all, 120);
        expect(thin.length).toBeLessThanOrEqual(120);
        expect(thin).toEqual(all.filter((point) => thin.includes(point)));
        if (all.length === 0) return;
        expect([thin[0], thin.at(-1)]).toEqual([all[0], all.at(-1)]);
        const range = (some: readonly LeftPoint[]) => [
          Math.min(...some.map(({ sheetsLeft }) => sheetsLeft)),
          Math.max(...some.map(({ sheetsLeft }) => sheetsLeft)),
        ];
        expect(range(thin)).toEqual(range(all));
      }),
    );
  });

  it("leaves a short evening as it is", () => {
    const few = [{ atMs: 1, sheetsLeft: 2 }];
    expect(thinPoints(few, 120)).toEqual(few);
  });
});
