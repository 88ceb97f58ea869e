import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { DemandAhead } from "../../../../dashboard/forecast/demand/demandAhead.ts";
import type { DemandInput, SeenSession } from "../../../../dashboard/forecast/demand/demandInput.ts";
import type { DemandRun } from "../../../../dashboard/forecast/demand/demandRun.ts";
import { forecastDemand } from "../../../../dashboard/forecast/demand/forecastDemand.ts";
import { aDemandInput, aDemandPlan, atMin, sessionsEvery } from "../../../support/aDemandInput.ts";

const closeAtMs = atMin(300);

function lastOf(ahead: DemandAhead): number {
  return ahead.stepsAtMs.length - 1;
}

function ask(input: DemandInput, atMs: number, before: DemandRun | null = null) {
  const { run, ahead } = forecastDemand(before, input, atMs, closeAtMs);
  const last = lastOf(ahead);
  const [p10, p50, p90] = [0.1, 0.5, 0.9].map((share) => ahead.quantile(last, share)) as [
    number,
    number,
    number,
  ];
  return { run, ahead, p10, p50, p90, mean: ahead.mean(last), lasts: ahead.atMost(last, 150) };
}

/** Gaps in minutes and sheets of sessions, from a little before the doors on. */
const anyEvening = fc
  .array(fc.tuple(fc.double({ min: 0, max: 25, noNaN: true }), fc.integer({ min: 0, max: 6 })), {
    maxLength: 120,
  })
  .map((parts) => {
    let min = -10;
    return parts.map(([gapMin, sheets]): SeenSession => ({ atMs: atMin((min += gapMin)), sheets }));
  });

const anyPlan = fc
  .record({
    guests: fc.option(fc.integer({ min: 0, max: 2_000 })),
    eventKind: fc.option(fc.constantFrom("wedding", "corporate", "party", "public", "gala", "harvest")),
    sheetsPerSession: fc.option(fc.double({ min: 0.5, max: 6, noNaN: true })),
    sheetsLoaded: fc.option(fc.integer({ min: 0, max: 5_000 })),
  })
  .map((over) => aDemandPlan(over));

const anyStops = fc.array(
  fc
    .tuple(fc.integer({ min: -20, max: 320 }), fc.option(fc.integer({ min: 0, max: 90 })))
    .map(([fromMin, lengthMin]) => ({
      fromAtMs: atMin(fromMin),
      toAtMs: lengthMin === null ? null : atMin(fromMin + lengthMin),
    })),
  { maxLength: 3 },
);

const anyInput = fc
  .record({ plan: anyPlan, sessions: anyEvening, stops: anyStops })
  .map((over) => aDemandInput(over));

describe("the forecast of demand, whatever came", () => {
  it("is numbers in order that no more sheets make worse", () => {
    fc.assert(
      fc.property(anyInput, fc.integer({ min: -60, max: 400 }), (input, min) => {
        const { ahead } = ask(input, atMin(min));
        let before = 0;
        for (let step = 0; step <= lastOf(ahead); step += 7) {
          const [p10, p50, p90] = [0.1, 0.5, 0.9].map((share) => ahead.quantile(step, share));
          expect(p10).toBeGreaterThanOrEqual(0);
          expect(p50).toBeGreaterThanOrEqual(p10 ?? Number.NaN);
          expect(p90).toBeGreaterThanOrEqual(p50 ?? Number.NaN);
          expect(Number.isFinite(p90)).toBe(true);
          expect(ahead.mean(step)).toBeGreaterThanOrEqual(before);
          before = ahead.mean(step);
        }
        const chances = [-1, 0, 1, 20, 100, 400, 5_000].map((sheets) => ahead.atMost(lastOf(ahead), sheets));
        chances.forEach((chance, at) => {
          expect(chance).toBeGreaterThanOrEqual(chances[at - 1] ?? 0);
          expect(chance).toBeLessThanOrEqual(1 + 1e-9);
        });
      }),
      { numRuns: 40, seed: 1 },
    );
  });

  it("is the same with the run of any earlier ask, of another evening, or with none", () => {
    fc.assert(
      fc.property(
        anyInput,
        anyInput,
        fc.array(fc.integer({ min: -30, max: 310 }), { maxLength: 6 }),
        (input, other, asks) => {
          const sorted = [...asks].sort((a, b) => a - b);
          let run: DemandRun | null = ask(other, atMin(120)).run;
          for (const min of sorted) run = ask(input, atMin(min), run).run;
          const [kept, fresh] = [ask(input, atMin(200), run), ask(input, atMin(200))];
          expect([kept.p10, kept.p50, kept.p90, kept.mean]).toEqual([
            fresh.p10,
            fresh.p50,
            fresh.p90,
            fresh.mean,
          ]);
        },
      ),
      { numRuns: 25, seed: 2 },
    );
  });

  it("folds a session that comes late where it belongs", () => {
    const sessions = sessionsEvery(5, 0, 120);
    const without = sessions.filter((_, at) => at !== 4);
    const { run } = ask(aDemandInput({ sessions: without }), atMin(110));
    const late = ask(aDemandInput({ sessions }), atMin(120), run);
    const fresh = ask(aDemandInput({ sessions }), atMin(120));
    expect([late.p10, late.p50, late.p90]).toEqual([fresh.p10, fresh.p50, fresh.p90]);
  });

  it("does not look at what comes after the ask", () => {
    const sessions = sessionsEvery(5, 0, 300);
    const known = sessions.filter(({ atMs }) => atMs <= atMin(100));
    expect(ask(aDemandInput({ sessions }), atMin(100)).mean).toBe(
      ask(aDemandInput({ sessions: known }), atMin(100)).mean,
    );
  });

  it("stands 10,000 sessions in a minute, an opening of a week and a plan that ends as it begins", () => {
    const crowd = Array.from({ length: 10_000 }, (_, at) => ({ atMs: atMin(60) + 6 * at, sheets: 1 }));
    expect(Number.isFinite(ask(aDemandInput({ sessions: crowd }), atMin(90)).p90)).toBe(true);
    const week = aDemandPlan({ closeAtMs: atMin(7 * 24 * 60) });
    expect(Number.isFinite(ask(aDemandInput({ plan: week }), atMin(5_000)).p90)).toBe(true);
    const none = aDemandPlan({ closeAtMs: atMin(0) });
    expect(Number.isFinite(ask(aDemandInput({ plan: none }), atMin(1)).p90)).toBe(true);
  });
});

describe("the forecast of an evening", () => {
  it("goes by the guests before the doors, and says that it is a plan", () => {
    const few = ask(aDemandInput({ plan: aDemandPlan({ guests: 60 }) }), atMin(-60));
    const many = ask(aDemandInput({ plan: aDemandPlan({ guests: 240 }) }), atMin(-60));
    expect(few.ahead.basis).toBe("planned");
    // Three sessions among four guests, two sheets each, with the spread of a plan.
    expect(few.p50).toBeGreaterThan(50);
    expect(few.p50).toBeLessThan(110);
    expect(many.mean / few.mean).toBeCloseTo(4, 0);
  });

  it("is a guess that says so where nothing is known", () => {
    const nothing = aDemandPlan({
      guests: null,
      eventKind: null,
      sheetsPerSession: null,
      sheetsLoaded: null,
    });
    const { ahead, p10, p90 } = ask(aDemandInput({ plan: nothing }), atMin(0));
    expect(ahead.basis).toBe("blind");
    expect(p90).toBeGreaterThan(3 * p10);
  });

  it("follows an evening that is twice as busy as planned, and one half as busy", () => {
    const usual = ask(aDemandInput(), atMin(0)).mean;
    const busy = ask(aDemandInput({ sessions: sessionsEvery(1.6, 0, 120) }), atMin(120));
    const quiet = ask(aDemandInput({ sessions: sessionsEvery(12, 0, 120) }), atMin(120));
    expect(busy.ahead.basis).toBe("learned");
    expect(busy.mean).toBeGreaterThan(1.5 * quiet.mean);
    expect(quiet.mean).toBeLessThan(usual);
  });

  it("does not take time in which the booth could not print for want of guests", () => {
    const sessions = sessionsEvery(4, 0, 60);
    const told = ask(
      aDemandInput({ sessions, stops: [{ fromAtMs: atMin(60), toAtMs: null }] }),
      atMin(120),
    ).mean;
    const untold = ask(aDemandInput({ sessions }), atMin(120)).mean;
    expect(told).toBeGreaterThan(1.1 * untold);
  });

  it("learns the shape of earlier evenings of its kind, and nothing from those of another", () => {
    const evening = (eventKind: string, openAtMs: number) => ({
      ...{ eventKind, openAtMs, closeAtMs: openAtMs + 5 * 3_600_000, guests: 100, sessions: 80, sheets: 160 },
      // All of it in the last hour.
      sheetsPer15Min: [...Array<number>(16).fill(0), 40, 40, 40, 40],
    });
    const week = 7 * 24 * 60;
    const past = [1, 2, 3, 4].map((back) => evening("harvest", atMin(-back * week)));
    const plan = aDemandPlan({ eventKind: "harvest", guests: 100 });
    const taught = ask(aDemandInput({ plan, past }), atMin(200));
    const untaught = ask(aDemandInput({ plan }), atMin(200));
    const other = ask(
      aDemandInput({ plan, past: past.map((one) => ({ ...one, eventKind: "gala" })) }),
      atMin(200),
    );
    expect(taught.ahead.basis).toBe("learned");
    expect(taught.mean).toBeGreaterThan(2 * untaught.mean);
    expect(other.mean).toBe(untaught.mean);
  });

  it("holds the rate at the close on when it is asked beyond", () => {
    const input = aDemandInput({ sessions: sessionsEvery(3, 0, 240) });
    const { ahead } = forecastDemand(null, input, atMin(240), atMin(420));
    const atClose = ahead.stepsAtMs.indexOf(closeAtMs);
    expect(atClose).toBeGreaterThan(0);
    expect(ahead.mean(lastOf(ahead))).toBeGreaterThan(1.5 * ahead.mean(atClose));
    expect(ahead.stepsAtMs.at(-1)).toBe(atMin(420));
  });

  it("takes one sheet a session from a moment on where that is asked for", () => {
    const { ahead } = ask(aDemandInput({ sessions: sessionsEvery(3, 0, 120) }), atMin(120));
    const now = ahead.withSheetsPerSession(1, atMin(120));
    const later = ahead.withSheetsPerSession(1, atMin(240));
    const last = lastOf(ahead);
    expect(now.mean(last)).toBeCloseTo(ahead.mean(last) / 2, -1);
    expect(later.mean(last)).toBeGreaterThan(now.mean(last));
    expect(later.mean(last)).toBeLessThan(ahead.mean(last));
  });
});
