import { describe, expect, it } from "vitest";
import { alertMeasures } from "../../bench/alerts/alertMeasures.ts";
import { drawDays } from "../../bench/alerts/drawEvening.ts";
import { outcomeOf } from "../../bench/alerts/outcome.ts";
import { playEvening, type Played } from "../../bench/alerts/playEvening.ts";

/** Coarser than the bench, so that it is quick. */
const pace = { tickMs: 30_000, lookEveryMs: 5 * 60_000 };

/** How good it is, `npm run bench -- alerts` says, on many more days; these bounds are loose. */
describe("alerts over an invented event day", () => {
  it("call seldom, miss little and are seldom false, and the measure sees it when nothing is said", async () => {
    const day: Played[] = [];
    for (const evening of drawDays("tune", 2)[1] ?? []) day.push(await playEvening(evening, pace));
    const seen = alertMeasures([day]);
    expect(seen.truths).toBeGreaterThanOrEqual(5);
    expect(seen.missedShare).toBeLessThanOrEqual(0.2);
    expect(seen.nowPerHour).toBeLessThanOrEqual(1);
    expect(seen.falseForecastsPerEvent).toBeLessThanOrEqual(1);
    expect(seen.falseAlarmsPerHour).toBeLessThanOrEqual(0.3);
    expect(seen.floodShare).toBe(0);

    const mute = day.map((played) => ({ ...played, raised: [], notices: [] }));
    expect(alertMeasures([mute]).missedShare).toBe(1);
    const beside = day.map((played) => ({ ...played, truths: [] }));
    const measured = ({ falseAlarms }: ReturnType<typeof outcomeOf>) => falseAlarms.length;
    expect(beside.map(outcomeOf).reduce((sum, each) => sum + measured(each), 0)).toBeGreaterThanOrEqual(5);
  }, 90_000);
});
