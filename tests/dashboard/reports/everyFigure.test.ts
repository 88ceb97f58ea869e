import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { eventReport } from "../../../dashboard/reports/eventReport.ts";
import { reportRowOf, seasonTotals } from "../../../dashboard/reports/seasonTotals.ts";
import { withMore } from "../../../dashboard/reports/withMore.ts";
import { seededDice } from "../../../seeds/dice.ts";
import { aBooth } from "../../support/aBooth.ts";
import { aReportedEvening } from "../../support/aReportedEvening.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { countNaively } from "../../support/countNaively.ts";

const dayMs = 24 * hourMs;
const limitC = 32;
const pricePerRoll = 70;

type Drawn = { readonly seed: number; readonly hours: number; readonly hasPlannedBreak: boolean };

const anyEvening = fc.record<Drawn>({
  seed: fc.integer({ min: 1_000, max: 1_000_000 }),
  hours: fc.integer({ min: 2, max: 7 }),
  hasPlannedBreak: fc.boolean(),
});

/** An evening, its report as the program makes it, and what a plain count of the raw facts gives. */
function both({ seed, hours, hasPlannedBreak }: Drawn) {
  const { booking: plan, facts, heard } = aReportedEvening(seed, { openAtMs: sixAtMs, hours });
  const dice = seededDice(seed, "temperatures");
  const breaks = hasPlannedBreak
    ? [{ fromAtMs: sixAtMs + 50 * minuteMs, toAtMs: sixAtMs + 70 * minuteMs }]
    : [];
  const booking = { ...plan, breaks };
  const inside = Array.from({ length: (hours + 2) * 60 }, (_, at) => {
    const minC = 20 + Math.floor(dice() * 10);
    const meanC = minC + 2;
    return { atMs: sixAtMs + (at - 60) * minuteMs, minC, meanC, maxC: meanC + Math.floor(dice() * 3) };
  });
  const settings = aBooth({ limitC });
  const nowMs = sixAtMs + 2 * dayMs;
  const { bookingId } = booking;
  const counted = eventReport({ bookingId, near: [booking], settings, facts, heard, inside, nowMs });
  if (counted === null) throw new Error("there is no report");
  const report = withMore(counted, {
    corrections: [],
    alerts: [],
    prices: { pricePerRoll, currency: "EUR" },
  });
  return { report, plain: countNaively({ booking, facts, heard, inside, limitC }) };
}

describe("each number of a report", () => {
  it("equals a plain count of the raw facts", () => {
    fc.assert(
      fc.property(anyEvening, (drawn) => {
        const { report, plain } = both(drawn);
        const { client, owner } = report;
        expect(client.figures).toEqual(plain.figures);
        expect(client.closeAtMs).toBe(plain.closeAtMs);
        expect(client.quarters).toEqual(plain.quarters);
        expect(client.busiest).toEqual(plain.busiest);
        expect(client.time).toEqual(plain.time);
        expect(owner.counted).toEqual({
          ...plain.figures,
          readyMin: Math.round(plain.time.readyMs / minuteMs),
        });
        expect(owner.outside).toEqual(plain.outside);
        expect(owner.paper).toEqual({ ...plain.paper, kitSheets: 400 });
        expect(owner.counts.sessions).toEqual([{ by: "layouts", count: plain.counts.sessions }]);
        expect(owner.counts.sheets).toEqual([{ by: "jobs", count: plain.counts.sheets }]);
        expect(owner.waits).toEqual(plain.waits);
        expect({ ...owner.inside, meanC: 0 }).toEqual({ ...plain.inside, meanC: 0 });
        expect(owner.inside?.meanC).toBeCloseTo(plain.inside.meanC, 9);
        expect(owner.gaps).toEqual(plain.gaps.map((gap) => ({ ...gap, sheetsAfter: null })));
        expect(owner.cost?.amount).toBeCloseTo((plain.paper.sheetsUsed * pricePerRoll) / 400, 9);
      }),
      { numRuns: 40 },
    );
  });

  it("stands summed in the totals of a season", () => {
    fc.assert(
      fc.property(fc.array(anyEvening, { minLength: 1, maxLength: 6 }), (drawn) => {
        const all = drawn.map(both);
        const totals = seasonTotals(all.map(({ report }) => reportRowOf(report)));
        const sum = (of: (plain: ReturnType<typeof countNaively>) => number) =>
          all.reduce((total, { plain }) => total + of(plain), 0);
        expect(totals).toMatchObject({
          evenings: all.length,
          sessions: sum(({ figures }) => figures.sessions),
          prints: sum(({ figures }) => figures.prints),
          sheets: sum(({ figures }) => figures.sheets),
          promisedMs: sum(({ time }) => time.promisedMs),
          readyMs: sum(({ time }) => time.readyMs),
          stoppedMs: sum(({ time }) => time.stoppedMs),
          unknownMs: sum(({ time }) => time.unknownMs),
          sheetsUsed: sum(({ paper }) => paper.sheetsUsed),
          wastedSheets: sum(({ paper: { wasted } }) => wasted.change + wasted.test + wasted.spoilt),
          rollsFitted: sum(({ paper }) => paper.rolls.length),
        });
        expect(totals.kitsUsed).toBeCloseTo(sum(({ paper }) => paper.sheetsUsed) / 400, 9);
      }),
      { numRuns: 5 },
    );
  });
});
