import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mediaNow, type MediaNow } from "../../../dashboard/booth/mediaNow.ts";
import { emptyTimeline, foldItems } from "../../../dashboard/booth/timeline.ts";
import { anyPaperEvening, type PaperEvening, type PaperTruth } from "../../support/aPaperEvening.ts";
import { aBooth, stateAfter } from "../../support/aBooth.ts";

/** What the ledger says at each truth, as the items arrive. */
async function saidAlong({ booth, items, truths }: PaperEvening): Promise<(MediaNow | null)[]> {
  const settings = aBooth({ kitSheets: booth.kitSheets, changeWasteSheets: booth.changeWaste });
  const said: (MediaNow | null)[] = [];
  let timeline = emptyTimeline("juniper");
  let from = 0;
  for (const { told } of truths) {
    const stored = items.slice(0, told);
    timeline = await foldItems(timeline, items.slice(from, told), (sinceAtMs) =>
      stored.filter((item) => item.atMs >= sinceAtMs),
    );
    said.push(mediaNow(timeline.state, settings, null));
    from = told;
  }
  return said;
}

function expectTrue(truth: PaperTruth, said: MediaNow | null): void {
  const { sheetsLeft, lowSheets, highSheets, figure } = said ?? { sheetsLeft: NaN };
  const isSure = figure !== "doubtful" && lowSheets === highSheets;
  if (isSure) expect({ truth, figure, sheetsLeft }).toMatchObject({ sheetsLeft: truth.sheetsLeft });
  expect(lowSheets).toBeLessThanOrEqual(truth.sheetsLeft);
  expect(highSheets).toBeGreaterThanOrEqual(truth.sheetsLeft);
}

describe("against a roll whose sheets are known", () => {
  it("is right to the sheet when it is sure, and holds the truth in its range when it is not", async () => {
    await fc.assert(
      fc.asyncProperty(anyPaperEvening, async (evening) => {
        const said = await saidAlong(evening);
        evening.truths.forEach((truth, at) => {
          if (truth.isComplete) expectTrue(truth, said[at] ?? null);
        });
      }),
      { numRuns: 120, seed: 20260620 },
    );
  }, 30_000);

  it("is sure at most booths at most times", async () => {
    const figures: string[] = [];
    await fc.assert(
      fc.asyncProperty(anyPaperEvening, async (evening) => {
        const said = await saidAlong(evening);
        figures.push(...evening.truths.flatMap((truth, at) => (truth.isComplete ? [saidAs(said[at])] : [])));
      }),
      { numRuns: 40, seed: 20260621 },
    );
    expect(figures.filter((each) => each === "doubtful").length / figures.length).toBeLessThan(0.15);
  }, 30_000);
});

function saidAs(said: MediaNow | null | undefined): string {
  return said?.figure ?? "unknown";
}

describe("in any order of arrival", () => {
  it("is the ledger of all that was told, in the order of time", async () => {
    const anyArrival = anyPaperEvening.chain(({ items }) =>
      fc.tuple(
        fc.shuffledSubarray([...items], { minLength: items.length }),
        fc.integer({ min: 10, max: 80 }),
      ),
    );
    await fc.assert(
      fc.asyncProperty(anyArrival, async ([items, size]) => {
        let timeline = emptyTimeline("juniper");
        for (let from = 0; from < items.length; from += size) {
          const stored = items.slice(0, from + size);
          timeline = await foldItems(timeline, items.slice(from, from + size), (sinceAtMs) =>
            stored.filter((item) => item.atMs >= sinceAtMs),
          );
          expect(timeline.state).toStrictEqual(stateAfter(stored));
        }
      }),
      { numRuns: 12, seed: 20260622 },
    );
  }, 30_000);
});
