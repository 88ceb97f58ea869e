import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coolingPauseCost } from "../../../../dashboard/forecast/air/coolingPause.ts";

describe("a cooling pause", () => {
  it("of ten minutes at 30 guests an hour, with room for 60, delays ten and is over ten minutes later", () => {
    expect(coolingPauseCost({ pauseMinutes: 10, guestsPerHour: 30, capacityPerHour: 60 })).toEqual({
      ...{ guestsDelayed: 10, clearsInMinutes: 10 },
    });
  });

  it("costs nobody anything when nobody comes", () => {
    const cost = coolingPauseCost({ pauseMinutes: 10, guestsPerHour: 0, capacityPerHour: 60 });
    expect(cost).toEqual({ guestsDelayed: 0, clearsInMinutes: 0 });
  });

  it("never clears in a line that is full already", () => {
    for (const capacityPerHour of [30, 20])
      expect(coolingPauseCost({ pauseMinutes: 10, guestsPerHour: 30, capacityPerHour })).toBeNull();
  });

  it("delays as many as a line does that is stepped through second by second", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 5, max: 60 }),
        fc.integer({ min: 10, max: 90 }),
        (pauseMinutes, guestsPerHour, spare) => {
          const capacityPerHour = guestsPerHour + spare;
          const cost = coolingPauseCost({ pauseMinutes, guestsPerHour, capacityPerHour });
          let [waiting, delayed] = [0, 0];
          for (let second = 0; second < pauseMinutes * 60 || waiting > 0; second++) {
            const served = second < pauseMinutes * 60 ? 0 : capacityPerHour / 3600;
            waiting = Math.max(0, waiting + guestsPerHour / 3600 - served);
            delayed += guestsPerHour / 3600;
          }
          expect(delayed / (cost?.guestsDelayed ?? NaN)).toBeCloseTo(1, 1);
        },
      ),
      { seed: 4, numRuns: 50 },
    );
  });
});
