import { describe, expect, it } from "vitest";
import { placeLabels } from "../../../dashboard/web/parts/placeLabels.ts";
import { rollShape } from "../../../dashboard/web/parts/rollShape.ts";
import { stripInput, sharedAxis } from "../../../dashboard/web/parts/stripInput.ts";
import type { StripInput } from "../../../dashboard/web/parts/stripShape.ts";
import { fanAt, splitAtRolls, stripShape } from "../../../dashboard/web/parts/stripShape.ts";
import {
  aBookingView,
  aBoothView,
  aMediaOutlook,
  eveningAtMs,
  hourMs,
  minuteMs,
} from "../../support/aBoothView.ts";

const box = { leftPx: 0, rightPx: 600, topPx: 0, bottomPx: 100, strokePx: 3 };

function inputOf(over: Partial<StripInput> = {}): StripInput {
  const input = stripInput(aBoothView(), eveningAtMs, false, null);
  if (input === null) throw new Error("a booth with a booking has a strip");
  return { ...input, ...over };
}

describe("the strip of an evening", () => {
  it("runs from opening to close, with now where it belongs", () => {
    const shape = stripShape(inputOf(), box);
    expect(shape.x(eveningAtMs - hourMs)).toBe(0);
    expect(shape.closePx).toBe(600);
    expect(shape.nowPx).toBe(100);
  });

  it("shows no now line before the opening and after the close", () => {
    expect(stripShape(inputOf({ nowMs: eveningAtMs - 2 * hourMs }), box).nowPx).toBeNull();
    expect(stripShape(inputOf({ nowMs: eveningAtMs + 6 * hourMs }), box).nowPx).toBeNull();
  });

  it("draws more sheets higher, never above the paper", () => {
    const shape = stripShape(inputOf(), box);
    expect(shape.y(300)).toBeLessThan(shape.y(100));
    expect(shape.y(300)).toBeGreaterThanOrEqual(0);
    expect(shape.y(-50)).toBe(shape.y(0));
    const over = stripShape(inputOf({ sheetsLeft: 340 }), box);
    expect(over.y(340)).toBeGreaterThanOrEqual(0);
  });

  it("ends the past where a silent booth was last heard", () => {
    const heardAtMs = eveningAtMs - 30 * minuteMs;
    const shape = stripShape(inputOf({ knownAtMs: heardAtMs }), box);
    const xs = [...shape.usedLine.matchAll(/(?:M|L)([\d.]+) /g)].map((match) => Number(match[1]));
    expect(Math.max(...xs)).toBe(shape.x(heardAtMs));
  });

  it("begins a new part at each roll change", () => {
    const at = (minute: number, sheetsLeft: number) => ({ atMs: minute * minuteMs, sheetsLeft });
    const parts = splitAtRolls([at(0, 90), at(10, 10), at(11, 300), at(20, 280)]);
    expect(parts.map((part) => part.length)).toEqual([2, 2]);
    expect(splitAtRolls([])).toEqual([]);
  });

  it("reads the fan between its points and not beyond its ends", () => {
    const fan = aMediaOutlook().fan;
    expect(fanAt(fan, eveningAtMs + 2.5 * hourMs)).toMatchObject({ p10: 143, p50: 166, p90: 189 });
    expect(fanAt(fan, eveningAtMs - 1)).toBeNull();
    expect(fanAt(fan, eveningAtMs + 6 * hourMs)).toBeNull();
  });

  it("thins the strokes of the fan towards the close", () => {
    const { rays } = stripShape(inputOf(), box);
    const widths = [...rays.matchAll(/M([\d.]+) [\d.]+H([\d.]+)/g)].map(([, a, b]) => Number(b) - Number(a));
    expect(widths.length).toBeGreaterThan(100);
    expect(widths[0] ?? 0).toBeGreaterThan((widths.at(-1) ?? 0) + 1);
  });

  it("marks where the roll ends: a ring at the likeliest time, a bar over eight times in ten", () => {
    const emptyAtMs = { p10: eveningAtMs + 2 * hourMs, p50: eveningAtMs + 3 * hourMs, p90: null };
    const fan = [
      { atMs: eveningAtMs, p10: 246, p50: 246, p90: 246 },
      { atMs: eveningAtMs + 5 * hourMs, p10: -369, p50: -164, p90: 20 },
    ];
    const shape = stripShape(inputOf({ emptyAtMs, fan }), box);
    expect(shape.empty).toEqual({ ringPx: 400, fromPx: 300, toPx: 600 });
    expect(shape.mid.endsWith(`L400 ${shape.y(0)}`)).toBe(true);
    expect(stripShape(inputOf(), box).empty).toBeNull();
  });

  it("shows the bar also when only one time in ten the roll ends before the close", () => {
    const emptyAtMs = { p10: eveningAtMs + 4 * hourMs, p50: null, p90: null };
    expect(stripShape(inputOf({ emptyAtMs }), box).empty).toEqual({ ringPx: null, fromPx: 500, toPx: 600 });
  });

  it("marks since when the printer stands still", () => {
    const stop = stripShape(inputOf({ stoppedAtMs: eveningAtMs - 30 * minuteMs, sheetsLeft: 0 }), box).stop;
    expect(stop).toEqual({ fromPx: 50, toPx: 100, isOut: true });
  });

  it("draws no stop on an evening that has not begun, also on an axis that has", () => {
    const openAtMs = eveningAtMs + hourMs;
    const stoppedAtMs = eveningAtMs - 30 * minuteMs;
    for (const fromAtMs of [openAtMs, eveningAtMs - hourMs])
      expect(stripShape(inputOf({ openAtMs, fromAtMs, stoppedAtMs }), box).stop).toBeNull();
  });

  it("is not drawn for a booth without hours and without counts", () => {
    expect(stripInput(aBoothView({ booking: null, past: [] }), eveningAtMs, false, null)).toBeNull();
  });

  it("shares one axis of whole hours with the others that holds all of them and now", () => {
    const early = aBoothView({ booking: aBookingView({ openAtMs: eveningAtMs - 3.25 * hourMs }) });
    const axis = sharedAxis([aBoothView(), early], eveningAtMs);
    expect(axis).toEqual({ fromAtMs: eveningAtMs - 4 * hourMs, toAtMs: eveningAtMs + 5 * hourMs });
    const none = sharedAxis([], eveningAtMs);
    expect(none.toAtMs).toBeGreaterThan(none.fromAtMs);
  });
});

describe("the roll seen end on", () => {
  const area = (shape: ReturnType<typeof rollShape>) => shape.paperPx ** 2 - shape.corePx ** 2;

  it("has a ring whose area is the paper that is left", () => {
    const full = rollShape(300, 300, 52);
    expect(full.paperPx).toBeCloseTo(full.fullPx);
    expect(area(rollShape(75, 300, 52)) / area(full)).toBeCloseTo(0.25);
    expect(rollShape(0, 300, 52)).toMatchObject({ wind: "", paperPx: full.corePx });
  });

  it("never grows beyond a full one nor below its core", () => {
    expect(rollShape(400, 300, 52).paperPx).toBeCloseTo(25);
    expect(rollShape(-3, 300, 52).paperPx).toBeCloseTo(7.5);
  });
});

describe("labels of an axis", () => {
  it("give way to those before them when they would touch", () => {
    const placed = placeLabels(
      [
        { text: "23:00", xPx: 250, anchor: "end" },
        { text: "now", xPx: 232, anchor: "middle" },
        { text: "17:00", xPx: 0, anchor: "start" },
      ],
      12,
      250,
    );
    expect(placed.map((label) => label.text)).toEqual(["23:00", "17:00"]);
  });
});
