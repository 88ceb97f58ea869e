import type { Report } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { eventReport, type ReportInput } from "../../../dashboard/reports/eventReport.ts";
import { aBooking } from "../../support/aBooking.ts";
import { aBooth } from "../../support/aBooth.ts";
import { aReportedEvening, type ReportedEvening, type Span } from "../../support/aReportedEvening.ts";
import { aStory, hourMs, minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const dayMs = 24 * hourMs;

function reported(over: Partial<ReportInput>): Report {
  const report = eventReport({
    ...{ bookingId: "booking-1", near: [aBooking()], settings: aBooth(), facts: [], heard: [], inside: [] },
    ...{ nowMs: sixAtMs + dayMs },
    ...over,
  });
  if (report === null) throw new Error("there is no report");
  return report;
}

const ofEvening = (evening: ReportedEvening, over: Partial<ReportInput> = {}) =>
  reported({ near: [evening.booking], facts: evening.facts, heard: evening.heard, ...over });

const everyMinute = (fromMin: number, toMin: number) =>
  Array.from({ length: toMin - fromMin + 1 }, (_, at) => sixAtMs + (fromMin + at) * minuteMs);

const isIn = (atMs: number, spans: readonly Span[]) => spans.some(([from, to]) => atMs >= from && atMs < to);

/** The lengths of the promised time, counted second by second, ms. */
function countedBySecond({ booking, truth }: ReportedEvening) {
  const lengths = { breaksMs: 0, unknownMs: 0, stoppedMs: 0, readyMs: 0 };
  for (let atMs = booking.openAtMs; atMs < truth.closeAtMs; atMs += 1000) {
    if (isIn(atMs, truth.breaks)) lengths.breaksMs += 1000;
    else if (isIn(atMs, truth.gaps)) lengths.unknownMs += 1000;
    else if (isIn(atMs, truth.stops)) lengths.stoppedMs += 1000;
    else lengths.readyMs += 1000;
  }
  return lengths;
}

describe("the report of an evening", () => {
  it.each(Array.from({ length: 40 }, (_, at) => at + 1))(
    "has the figures that were written down while evening %i was made up",
    (seed) => {
      const evening = aReportedEvening(seed, { openAtMs: sixAtMs, hours: 4 + (seed % 4) });
      const { truth } = evening;
      const { client, owner } = ofEvening(evening);
      const { sessions, prints, sheets, reprints, digitalOnly } = truth;
      expect(client.figures).toEqual({ sessions: sessions.length, prints, sheets, reprints, digitalOnly });
      expect(client.closeAtMs).toBe(truth.closeAtMs);
      expect(owner.outside).toEqual(truth.outside);
      expect(owner.paper.wasted.change).toBe(truth.wasted);
      expect(owner.paper.wasted.spoilt).toBe(0);
      expect(owner.paper.sheetsUsed).toBe(sheets + truth.outside.sheets + truth.wasted);
      expect(owner.paper.rolls).toHaveLength(truth.rolls);
      expect(client.time).toMatchObject(countedBySecond(evening));
      // Quarter-hours of London are those of UTC: whole multiples of fifteen minutes.
      for (const quarter of client.quarters) {
        const own = sessions.filter((atMs) => Math.floor(atMs / 900_000) * 900_000 === quarter.atMs);
        expect(quarter.sessions).toBe(own.length);
      }
      const sum = (of: "sessions" | "prints" | "sheets") =>
        client.quarters.reduce((total, quarter) => total + (quarter[of] ?? 0), 0);
      expect([sum("sessions"), sum("prints"), sum("sheets")]).toEqual([sessions.length, prints, sheets]);
    },
  );

  it("is the same whatever the order in which its facts came in", () => {
    const evening = aReportedEvening(7, { openAtMs: sixAtMs });
    const sorted = evening.facts.toSorted((a, b) => a.atMs - b.atMs);
    expect(ofEvening(evening, { facts: sorted })).toEqual(ofEvening(evening));
  });

  it("has of two evenings of one booth each its own, though their facts come together", () => {
    const one = aReportedEvening(3, { openAtMs: sixAtMs });
    const other = aReportedEvening(4, { bookingId: "booking-2", openAtMs: sixAtMs + 18 * hourMs });
    const both = {
      near: [one.booking, other.booking],
      facts: [...one.facts, ...other.facts],
      heard: [...one.heard, ...other.heard].toSorted((a, b) => a - b),
      nowMs: sixAtMs + 3 * dayMs,
    };
    for (const { booking, truth } of [one, other]) {
      const { client, owner } = reported({ ...both, bookingId: booking.bookingId });
      expect(client.figures.sessions).toBe(truth.sessions.length);
      expect(client.figures.sheets).toBe(truth.sheets);
      expect(owner.outside).toEqual(truth.outside);
      expect(client.time.unknownMs).toBe(truth.gaps.reduce((sum, [from, to]) => sum + (to - from), 0));
    }
  });

  it("of two days counts the first hour too", () => {
    const evening = aReportedEvening(5, { openAtMs: sixAtMs, hours: 47 });
    const { client } = ofEvening(evening, { nowMs: sixAtMs + 4 * dayMs });
    expect(client.figures.sessions).toBe(evening.truth.sessions.length);
    expect(client.figures.sheets).toBe(evening.truth.sheets);
    expect(client.time).toMatchObject(countedBySecond(evening));
  });

  it("is none before the opening, and goes on until the present after it", () => {
    const input = { near: [aBooking()], heard: everyMinute(-60, 60) };
    const at = (minute: number) => sixAtMs + minute * minuteMs;
    const early = eventReport({
      ...{ bookingId: "booking-1", settings: aBooth(), facts: [], inside: [], ...input, nowMs: at(-1) },
    });
    expect(early).toBeNull();
    const { client } = reported({ ...input, nowMs: at(60) });
    expect(client).toMatchObject({ isOver: false, throughAtMs: at(60) });
    expect(client.time).toMatchObject({ promisedMs: hourMs, readyMs: hourMs, unknownMs: 0 });
  });
});

const told = (lines: readonly StoryLine[], over: Partial<ReportInput> = {}) =>
  reported({ facts: aStory(lines), heard: everyMinute(-60, 360), ...over });

describe("what nothing could see", () => {
  it("is not known, and not none", () => {
    const { client } = reported({});
    expect(client.figures).toEqual({
      ...{ sessions: null, prints: null, sheets: null, reprints: null, digitalOnly: null },
    });
    expect(client.time).toMatchObject({ promisedMs: 5 * hourMs, readyMs: 0, unknownMs: 5 * hourMs });
    expect(client.busiest).toBeNull();
  });

  it("is none where a printer was there all evening and printed nothing", () => {
    const { client } = told([[-60, "printerState"]]);
    expect(client.figures).toMatchObject({ sessions: 0, sheets: 0, prints: 0, digitalOnly: 0 });
  });

  it("is the paper where sessions were seen and no printer", () => {
    const { client } = told([
      [10, "session"],
      [20, "session"],
    ]);
    expect(client.figures).toMatchObject({ sessions: 2, sheets: null, prints: null, digitalOnly: null });
  });
});

describe("pieces and sheets", () => {
  it("are told apart: two copies of a 6x8 are two pieces on four sheets", () => {
    // 6x8 = 2 lengths of 4x6: common practice, no source.
    const { client } = told([
      [10, "session"],
      [10.5, "print", { copies: 2, pitches: 4 }],
    ]);
    expect(client.figures).toMatchObject({ prints: 2, sheets: 4 });
  });

  it("come from the jobs where a printer's counter counts the sheets", () => {
    const { client, owner } = told([
      [-60, "counter", { pitchesEver: 1_000 }],
      [10, "session"],
      [10.5, "print", { copies: 2, pitches: 2 }],
      [10.6, "counter", { pitchesEver: 1_002 }],
      [20, "session"],
      [20.5, "print", { copies: 1, pitches: 1 }],
      [20.6, "counter", { pitchesEver: 1_004 }],
    ]);
    expect(client.figures).toMatchObject({ sessions: 2, prints: 3, sheets: 4 });
    expect(owner.counts).toMatchObject({
      sheetsBy: "counter",
      sheets: [
        { by: "counter", count: 4 },
        { by: "jobs", count: 3 },
      ],
    });
  });

  it("are sheets alone where nothing but a counter tells of them", () => {
    const { client } = told([
      [-60, "counter", { pitchesEver: 1_000 }],
      [10, "session"],
      [10.5, "counter", { pitchesEver: 1_002 }],
    ]);
    expect(client.figures).toMatchObject({ prints: null, sheets: 2 });
  });
});

describe("what the owner reads besides", () => {
  it("is the wait from the end of a session to its first sheet", () => {
    const { owner } = told([
      [10, "session"],
      [10.25, "print"],
      [20, "session"],
      [21, "print"],
      [30, "session"],
      [30.5, "print"],
      [31, "print"],
    ]);
    expect(owner.waits).toEqual({
      ...{ known: 3, medianMs: 30_000, longestMs: 60_000, longestAtMs: sixAtMs + 20 * minuteMs },
    });
  });

  it("is no wait where sessions are but groups of prints", () => {
    expect(told([[10, "print"]]).owner.waits).toBeNull();
  });

  it("are the temperatures of the open hours, and the minutes above the limit", () => {
    const inside = [
      { atMs: sixAtMs - minuteMs, minC: 10, meanC: 10, maxC: 60 },
      { atMs: sixAtMs, minC: 20, meanC: 21, maxC: 22 },
      { atMs: sixAtMs + minuteMs, minC: 38, meanC: 39, maxC: 41 },
      { atMs: sixAtMs + 2 * minuteMs, minC: 39, meanC: 39, maxC: 40 },
      { atMs: sixAtMs + 5 * hourMs, minC: 1, meanC: 1, maxC: 90 },
    ];
    expect(told([], { inside }).owner.inside).toEqual({
      ...{ minC: 20, meanC: 33, maxC: 41, limitC: 40, minutes: 3, aboveLimitMin: 1 },
    });
  });

  it("is an estimate of what a silence hid, by the hour around it, and in no other figure", () => {
    // Six sessions an hour around a silence of half an hour: three.
    const before = Array.from({ length: 6 }, (_, at): StoryLine => [65 + at * 10, "session"]);
    const after = Array.from({ length: 6 }, (_, at): StoryLine => [155 + at * 10, "session"]);
    const { client, owner } = told(
      [[0, "counter", { pitchesEver: 1_000 }], ...before, [150, "counter", { pitchesEver: 1_007 }], ...after],
      { heard: [...everyMinute(-60, 120), ...everyMinute(150, 330)] },
    );
    expect(owner.gaps).toEqual([
      {
        ...{ fromAtMs: sixAtMs + 120 * minuteMs, toAtMs: sixAtMs + 150 * minuteMs },
        ...{ sessionsEstimate: 3, sheetsAfter: 7 },
      },
    ]);
    expect(client.figures.sessions).toBe(12);
    expect(client.time.unknownMs).toBe(30 * minuteMs);
  });
});
