import { describe, expect, it } from "vitest";
import { tryLoads } from "../../bench/rolls/benchRolls.ts";

describe("rolls brought as advised, over two simulated seasons", () => {
  it("run out on no more nights than two rolls each, and are fewer; and on fewer than one roll each", () => {
    // `npm run bench -- rolls` plays twenty seasons; these are two others.
    const rows = tryLoads([9_001, 9_002], { booths: 4, nightsEach: 50, kitSheets: 400 });
    const [one, two, , advised] = rows;
    if (one === undefined || two === undefined || advised === undefined)
      throw new Error("four rules are tried");
    expect(advised.nights).toBe(400);
    expect(advised.carried).toBeLessThanOrEqual(two.carried);
    expect(advised.runOut).toBeLessThanOrEqual(two.runOut);
    expect(advised.runOut).toBeLessThan(one.runOut);
  });
});
