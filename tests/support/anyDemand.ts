import * as fc from "fast-check";
import type { KnownDemand } from "./aDemandAhead.ts";
import { minuteMs, sixAtMs } from "./aStoredItem.ts";

/** Evenings of up to ten hours with lulls, rushes and dead hours, from any moment before or in them. */
export const anyDemand: fc.Arbitrary<KnownDemand> = fc
  .record({
    atMinute: fc.integer({ min: -60, max: 200 }),
    lengthMin: fc.integer({ min: 0, max: 600 }),
    rates: fc.array(fc.integer({ min: 0, max: 150 }), { minLength: 1, maxLength: 8 }),
    sheetsPerSession: fc.double({ min: 1, max: 4, noNaN: true }),
    spread: fc.constantFrom(0, 0.2, 0.6, 1.2),
  })
  .map(({ atMinute, lengthMin, rates, sheetsPerSession, spread }) => ({
    ...{ sheetsPerSession, spread },
    atMs: sixAtMs + atMinute * minuteMs,
    untilAtMs: sixAtMs + (atMinute + lengthMin) * minuteMs,
    perHour: rates.map((rate, hour) => [sixAtMs + hour * 45 * minuteMs, rate] as const),
  }));
