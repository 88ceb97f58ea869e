import { describe, expect, it } from "vitest";
import { hourRows } from "../../../dashboard/reports/hourRows.ts";
import { quarterStarts } from "../../../dashboard/reports/quarterStarts.ts";
import {
  busiestOf,
  clockChangeOf,
  headlineOf,
  pauseLines,
  promiseOf,
} from "../../../dashboard/reports/reportWords.ts";
import { seasonTotals, reportRowOf } from "../../../dashboard/reports/seasonTotals.ts";
import { venueFormat } from "../../../dashboard/reports/venueFormat.ts";
import { withCorrectedRow, withMore } from "../../../dashboard/reports/withMore.ts";
import { aClientReport, aReport } from "../../support/aReport.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";

const format = venueFormat("Europe/London", "en-GB");
const figures = (sessions: number | null, prints: number | null, sheets: number | null) => ({
  figures: { sessions, prints, sheets, reprints: null, digitalOnly: null },
});

describe("the sentences of a report", () => {
  it("say what was counted, and leave out what is not known", () => {
    const said = (...counts: [number | null, number | null, number | null]) =>
      headlineOf(aClientReport(figures(...counts)), format);
    expect(said(234, 425, 425)).toBe(
      "Your guests stepped into the booth 234 times and took home 425 prints.",
    );
    expect(said(2, null, 1)).toBe("Your guests stepped into the booth twice and took home 1 printed sheet.");
    expect(said(1, 0, 0)).toBe("Your guests stepped into the booth once and took home no prints.");
    expect(said(1_234, null, null)).toBe("Your guests stepped into the booth 1,234 times.");
    expect(said(null, 12, 12)).toBe("Your guests took home 12 prints.");
    expect(said(null, null, null)).toBe("Nothing was counted at this booth.");
    expect(headlineOf(aClientReport({ isOver: false }), format)).toBe(
      "So far your guests have stepped into the booth 204 times and taken home 408 prints.",
    );
  });

  it("say how the promised time came about only where it is not what was booked", () => {
    expect(promiseOf(aClientReport(), format)).toBeNull();
    const time = { ...aClientReport().time, overrunMs: 30 * minuteMs, breaksMs: 20 * minuteMs };
    expect(promiseOf(aClientReport({ time }), format)).toBe(
      "Booked for 5 h, extended by 30 min, breaks of 20 min not counted.",
    );
  });

  it("tell each pause, short ones together", () => {
    const pause = (minute: number, seconds: number) => ({
      ...{ fromAtMs: sixAtMs + minute * minuteMs, toAtMs: sixAtMs + minute * minuteMs + seconds * 1000 },
      ...{ why: "stopped" as const, reason: "media-jam" },
    });
    const report = aClientReport({ pauses: [pause(0, 120), pause(10, 20), pause(20, 40)] });
    expect(pauseLines(report, format)).toEqual([
      "19:00 to 19:02 (2 min): paper was jammed.",
      "And 2 pauses more, 1 min in all.",
    ]);
    expect(pauseLines(aClientReport({ pauses: [] }), format)).toEqual(["It was ready all the time."]);
    expect(busiestOf(aClientReport({ busiest: null }), format)).toBeNull();
  });

  it("name the zone with its offset, and lengths as people say them", () => {
    expect(format.zone(sixAtMs)).toBe("Europe/London (GMT+1)");
    expect(venueFormat("Asia/Kathmandu", "en-GB").zone(sixAtMs)).toBe("Asia/Kathmandu (GMT+05:45)");
    expect(venueFormat("America/New_York", "en-US").stamp(sixAtMs)).toBe("2026-06-20T14:00:00-04:00");
    expect([0, 20_000, 14 * minuteMs, 6 * hourMs, 5 * hourMs + 56 * minuteMs].map(format.length)).toEqual([
      ...["0 min", "less than a minute", "14 min", "6 h", "5 h 56 min"],
    ]);
  });
});

describe("local quarter-hours", () => {
  it("follow the venue's wall, also in zones that are no whole hours ahead", () => {
    // Kathmandu is 5 h 45 min ahead of UTC (tz database).
    expect(quarterStarts(sixAtMs + minuteMs, sixAtMs + 31 * minuteMs, "Asia/Kathmandu")).toEqual([
      ...[sixAtMs, sixAtMs + 15 * minuteMs, sixAtMs + 30 * minuteMs],
    ]);
  });

  it.each([
    ["Europe/Berlin", "2026-10-24T20:00+02:00", "2026-10-25T03:30+01:00", 34, 9],
    ["Europe/Berlin", "2026-03-28T20:00+01:00", "2026-03-29T03:30+02:00", 26, 7],
    ["America/New_York", "2026-10-31T20:00-04:00", "2026-11-01T02:30-05:00", 30, 8],
  ])(
    "of %s from %s to %s are as many as there are, by the hour too",
    (zone, open, close, quarters, hours) => {
      // Lengths: tz database, computed independently (PT8H30M, PT6H30M, PT7H30M).
      const starts = quarterStarts(Date.parse(open), Date.parse(close), zone);
      expect(starts).toHaveLength(quarters);
      const rows = hourRows(
        starts.map((atMs) => ({ atMs, sessions: 1, prints: null, sheets: 2 })),
        zone,
        12,
      );
      expect(rows).toHaveLength(hours);
      expect(rows.reduce((sum, row) => sum + row.sessions, 0)).toBe(quarters);
      const { clock } = venueFormat(zone, "en-GB");
      for (const row of rows) expect(clock(row.atMs)).toMatch(/:00$/);
    },
  );

  it("say that the clocks changed only when they did", () => {
    const [openAtMs, closeAtMs] = ["2026-03-28T20:00+01:00", "2026-03-29T03:30+02:00"].map((each) =>
      Date.parse(each),
    );
    const night = aClientReport({
      zone: "Europe/Berlin",
      openAtMs: openAtMs ?? 0,
      closeAtMs: closeAtMs ?? 0,
    });
    expect(clockChangeOf(night)).toBe(
      "The clocks went forward during this event; all lengths are true lengths.",
    );
    expect(clockChangeOf(aClientReport())).toBeNull();
  });
});

describe("what is added to a report", () => {
  const correction = (is: number, atMs: number, field: "sessions" | "readyMin" = "sessions") => ({
    ...{ field, was: 204, is, why: "a group was missed", by: "Ama", atMs },
  });

  it("is the latest correction of a figure, its trail for the owner and a mark for the client", () => {
    const corrections = [correction(206, 1), correction(208, 2), correction(290, 3, "readyMin")];
    const { client, owner } = withMore(aReport(), { corrections, alerts: [], prices: null });
    expect(client.figures.sessions).toBe(208);
    expect(client.time.readyMs).toBe(290 * minuteMs);
    expect(client.corrected).toEqual(["sessions", "readyMin"]);
    expect(owner.corrections).toEqual(corrections);
    expect(owner.counted.sessions).toBe(204);
  });

  it("is the cost of the paper: a roll's price spread over its sheets", () => {
    // 418 sheets of rolls of 400 at 70: 418 / 400 x 70 = 73.15.
    const prices = { pricePerRoll: 70, currency: "EUR" };
    const { owner } = withMore(aReport(), { corrections: [], alerts: [], prices });
    expect(owner.cost?.amount).toBeCloseTo(73.15, 10);
    expect(withMore(aReport(), { corrections: [], alerts: [], prices: null }).owner.cost).toBeNull();
  });

  it("moves the sums of a season too", () => {
    const row = reportRowOf(aReport());
    const other = { ...row, bookingId: "b", boothName: "Sorrel", figures: { ...row.figures, prints: null } };
    const next = { ...row, bookingId: "c", openAtMs: row.openAtMs + 7 * 24 * hourMs };
    const totals = seasonTotals([withCorrectedRow(row, [correction(210, 1)]), other, next]);
    expect(totals).toMatchObject({
      ...{ events: 2, evenings: 3, sessions: 210 + 204 + 204, prints: 816, sheets: 3 * 408 },
      ...{ unknown: { sessions: 0, prints: 1, sheets: 0 }, rollsFitted: 3, wastedSheets: 15 },
      ...{ sheetsUsed: 3 * 418, kitsUsed: (3 * 418) / 400 },
    });
  });
});
