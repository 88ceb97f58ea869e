import { expect, it } from "vitest";
import { tryRules } from "../../../bench/advice/benchAdvice.ts";

/** How much better it is, `npm run bench -- advice` says, on many more evenings. */
it("turns away fewer guests and wastes fewer sheets than the rules of thumb, on a few evenings", () => {
  const families = ["as planned", "far above the plan", "sudden rush", "rush at the end"];
  const [whenEmpty, atTenth, advised] = tryRules("tune", 12, families);
  for (const rule of [whenEmpty, atTenth]) {
    expect(advised?.turnedAway).toBeLessThan(rule?.turnedAway ?? 0);
    expect(advised?.wasted).toBeLessThan(rule?.wasted ?? 0);
  }
  expect(advised?.delayed).toBeLessThan(whenEmpty?.delayed ?? 0);
}, 60_000);
