import { beforeAll, describe, expect, it } from "vitest";
import { tryAll } from "../../bench/forecast/benchForecast.ts";
import { chancesOf, coverageOf, ratioToNaive } from "../../bench/forecast/measures.ts";
import type { Tried } from "../../bench/forecast/resultTable.ts";
import { baseRateScore, brierScore } from "../../bench/forecast/scores.ts";
import { throughReplay } from "../../bench/forecast/throughReplay.ts";

/**
 * A loose floor, so that a change which ruins the forecast is seen at once. How good it is, `npm run bench --
 * forecast` says, on many more evenings.
 */
describe("the demand forecast on a few evenings", () => {
  let tried: Tried;
  beforeAll(async () => {
    const families = [
      "as planned",
      "far above the plan",
      "sudden rush",
      "rush at the end",
      "outages, told",
      "unknown kind, earlier evenings",
    ];
    const choice = { seeds: "tune", evenings: 6, families, withOpen: true } as const;
    // No clock: how long an ask takes is the bench's to say.
    tried = await tryAll(choice, throughReplay, () => 0);
  });

  it("says less wrong than the best rate without a plan on simulated evenings", () => {
    expect(tried.simulated).toHaveLength(36);
    expect(ratioToNaive(tried.simulated)).toBeLessThan(1.05);
  });

  it("says much less wrong than that on open records whose days before it was told", () => {
    expect(tried.learned).toHaveLength(18);
    expect(ratioToNaive(tried.learned)).toBeLessThan(0.95);
  });

  it("is not lost on open records of which it was told nothing", () => {
    expect(ratioToNaive(tried.cold)).toBeLessThan(1.3);
  });

  it("holds what comes in its 80 % band about as often as it says", () => {
    const coverage = coverageOf([...tried.simulated, ...tried.learned, ...tried.cold]);
    expect(coverage).toBeGreaterThan(0.66);
    expect(coverage).toBeLessThan(0.95);
  });

  it("knows better than the base rate whether the roll lasts", () => {
    const said = chancesOf(tried.simulated);
    expect(brierScore(said)).toBeLessThan(0.8 * baseRateScore(said));
  });

  it("answers every ask with quantiles in order and a chance between 0 and 1", () => {
    const answers = [...tried.simulated, ...tried.learned, ...tried.cold].flatMap(({ asks }) =>
      asks.map(({ said }) => said["program"]),
    );
    expect(answers.length).toBeGreaterThan(800);
    for (const answer of answers) {
      const { p10, p50, p90, lastsChance } = answer ?? expect.fail("an ask without an answer");
      expect(p10).toBeGreaterThanOrEqual(0);
      expect(p50).toBeGreaterThanOrEqual(p10);
      expect(p90).toBeGreaterThanOrEqual(p50);
      expect(lastsChance).toBeGreaterThanOrEqual(0);
      expect(lastsChance).toBeLessThanOrEqual(1);
    }
  });
});
