import { describe, expect, it } from "vitest";
import type { BoothFrame } from "../../../dashboard/forecast/sun/boothFrame.ts";
import { dayPlan, firstMoment, hoursOn, litThrough } from "../../../dashboard/web/sun/dayPlan.ts";
import { sceneOf } from "../../../dashboard/web/sun/planned.ts";
import { openingOn, placeOn, planBox, pointAt } from "../../../dashboard/web/sun/planShape.ts";
import {
  dayText,
  hourRows,
  momentText,
  openingNames,
  openingRows,
} from "../../../dashboard/web/sun/planText.ts";
import { windLetters, windOf } from "../../../dashboard/web/words/en/sun.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { aBoothFrame, anOpening, aSunSite } from "../../support/aBoothFrame.ts";
import { aBooking } from "../../support/aBooking.ts";
import { hourMs } from "../../support/aBoothView.ts";
import { aStanding, aTrailerBox } from "../../support/aTrailerBox.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
/** 15:00 to 22:00 in Berlin on 20 June 2026. */
const hours = { fromMs: Date.UTC(2026, 5, 20, 13), toMs: Date.UTC(2026, 5, 20, 20) };
const frame: BoothFrame = { ...aTrailerBox(), headingDeg: 0 };
const site = aSunSite(52, 11);
const plan = dayPlan(frame, site, "Europe/Berlin", hours);

describe("the plan of a day", () => {
  it("says when the sun reaches the printer and through what, as its table does", () => {
    const text = dayText(plan, frame, format);
    const rows = openingRows(plan, frame, format);
    expect(rows.map(([name]) => name)).toEqual(["left opening", "right opening"]);
    for (const [name = "", from = "", to = ""] of rows)
      expect(text).toContain(`from ${from} to ${to} through the ${name}`);
  });

  it("is lit at a moment only within a stretch, and says so", () => {
    const [evening] = plan.byOpening[0] ?? [];
    if (evening === undefined) throw new Error("the sun comes in by the left opening");
    const middleMs = (evening.fromMs + evening.toMs) / 2;
    expect(litThrough(plan, middleMs)).toEqual([0]);
    expect(momentText(plan, frame, site, middleMs)).toMatch(
      /^sun \d+° high in the west.*; the printer is in the sun, through the left opening$/,
    );
    expect(momentText(plan, frame, site, evening.toMs + hourMs)).toContain("in the shade");
    expect(momentText(plan, frame, site, plan.slide.toMs + hourMs)).toContain("the sun is down");
  });

  it("runs from the sun's rise to its set, in whole steps, with a row for each hour", () => {
    const { sun, slide } = plan;
    expect(slide.fromMs).toBeLessThanOrEqual(sun.riseAtMs ?? 0);
    expect(slide.toMs).toBeGreaterThanOrEqual(sun.setAtMs ?? Infinity);
    expect(hourRows(plan, site, format).map(([clock]) => clock)).toEqual(
      Array.from({ length: 17 }, (_, i) => `${String(i + 5).padStart(2, "0")}:00`),
    );
  });

  it("begins now on the day itself, else in the first sun on the printer", () => {
    expect(firstMoment(plan, hours.fromMs)).toBe(hours.fromMs);
    const first = firstMoment(plan, hours.fromMs - 90 * 24 * hourMs);
    expect(litThrough(plan, first).length).toBe(1);
  });

  it("asks of another date the same hours by its clocks, also across a change of the clocks", () => {
    const planned = aBooking({ zone: "Europe/Berlin", openAtMs: hours.fromMs, closeAtMs: hours.toMs });
    expect(hoursOn("2026-06-20", planned)).toEqual(hours);
    expect(hoursOn("2026-12-05", planned)).toEqual({
      fromMs: Date.UTC(2026, 11, 5, 14),
      toMs: Date.UTC(2026, 11, 5, 21),
    });
  });

  it("says polar night and polar day as they are", () => {
    const high = aSunSite(78, 15);
    const night = { fromMs: Date.UTC(2026, 11, 20, 13), toMs: Date.UTC(2026, 11, 20, 20) };
    const dark = dayPlan(frame, high, "Europe/Oslo", night);
    expect(dayText(dark, frame, format)).toMatch(/^The sun does not rise there on Sunday 20 December/);
    const bright = dayPlan(frame, high, "Europe/Oslo", hours);
    expect(bright.sun.course).toBe("upAllDay");
    expect(bright.slide.toMs - bright.slide.fromMs).toBe(24 * hourMs);
  });
});

describe("what is missing for a plan", () => {
  const whole = aBooking({ latitudeDeg: 52, longitudeDeg: 11, standing: aStanding() });

  it("is nothing when walls, heading and place are known", () => {
    expect(sceneOf(aTrailerBox(), whole)).toMatchObject({
      frame: { headingDeg: 0 },
      site: { latitudeDeg: 52 },
    });
  });

  it("is named, each", () => {
    const bare = { ...whole, latitudeDeg: null, standing: aStanding({ headingDeg: null }) };
    expect(sceneOf(null, bare)).toEqual({ missing: ["box", "heading", "place"] });
    expect(sceneOf(aTrailerBox(), null)).toEqual({ missing: ["booking"] });
  });
});

describe("the plan on its paper", () => {
  it("has north on top whatever the heading", () => {
    const east = aBoothFrame({ headingDeg: 90 });
    const box = planBox(east, 390, 12);
    const middle = box.sizePx / 2;
    const front = placeOn(east, box, east.widthM / 2, east.lengthM);
    expect(front.xPx).toBeGreaterThan(middle);
    expect(front.yPx).toBeCloseTo(middle, 0);
    expect(pointAt(box, 0, 100)).toEqual({ xPx: middle, yPx: middle - 100 });
    expect(pointAt(box, 90, 100)).toEqual({ xPx: middle + 100, yPx: middle });
  });

  it("draws an opening as wide as it is, its name outside", () => {
    const facing = aBoothFrame({ headingDeg: 0 });
    const box = planBox(facing, 390, 12);
    const shape = openingOn(facing, box, 0, 12);
    const [from, to] = shape?.ends ?? [];
    expect((to?.xPx ?? 0) - (from?.xPx ?? 0)).toBeCloseTo(0.8 * box.pxPerM, 0);
    expect(shape?.nameAt.yPx).toBeLessThan(from?.yPx ?? 0);
  });

  it("keeps the booth within the ring of the sun", () => {
    const box = planBox(frame, 320, 24);
    const corner = placeOn(frame, box, frame.widthM, frame.lengthM);
    const middle = box.sizePx / 2;
    expect(Math.hypot(corner.xPx - middle, corner.yPx - middle)).toBeLessThan(box.rimPx);
  });
});

describe("names", () => {
  it("number openings only where a wall has several", () => {
    const [left, rear] = [anOpening({ bearingDeg: -90 }), anOpening({ bearingDeg: 180 })];
    expect(openingNames([left, rear])).toEqual(["left opening", "rear opening"]);
    expect(openingNames([left, left, anOpening({ bearingDeg: 45 })])).toEqual([
      "left opening 1",
      "left opening 2",
      "opening at 45°",
    ]);
  });

  it("give every direction one of sixteen winds", () => {
    const said = [0, 11.2, 11.3, 45, 202.5, 247.5, 359, -90].map(windOf);
    expect([247.5, 315, 0].map(windLetters)).toEqual(["WSW", "NW", "N"]);
    expect(said).toEqual([
      ...["north", "north", "north-northeast", "northeast"],
      ...["south-southwest", "west-southwest", "north", "west"],
    ]);
  });
});
