import { expect, test } from "vitest";
import { storyOf } from "../../seeds/story.ts";
import { aDay, aDayBooth } from "../support/aDay.ts";

test("a day's story tells what happens within the time given, in order", () => {
  const fern = aDayBooth({
    incidents: [
      { kind: "linkCut", atMin: 4, forMin: 3 },
      { kind: "jam", atMin: -20, forMin: 3 },
      { kind: "shade", atMin: 12, keepsOut: 0.5 },
    ],
  });
  const moss = aDayBooth({ name: "Moss", incidents: [{ kind: "jam", atMin: 1, forMin: 2 }] });
  expect(storyOf(aDay([fern, moss]), 10)).toEqual([
    "after   1 min  Moss's printer jams: somebody is needed now",
    "after   3 min  Moss's jam is cleared",
    "after   4 min  Fern's Wi-Fi drops, and the booth goes on counting",
    "after   7 min  Fern is back, and what it counted comes in",
  ]);
});
