import { describe, expect, it } from "vitest";
import { nextPublished, type Published } from "../../../dashboard/publishedView.ts";
import { anOutlook } from "../../support/anOutlook.ts";
import { aBoothView, aMediaOutlook, aMediaView, anAlertView, eveningAtMs } from "../../support/aBoothView.ts";

const secondMs = 1_000;
const at = (second: number) => eveningAtMs + second * secondMs;

function firstOut(): Published {
  const published = nextPublished(null, aBoothView(), at(0));
  if (published === null) throw new Error("the first view was not sent");
  return published;
}

const drifted = aBoothView({
  outlook: anOutlook(at(5), aMediaOutlook({ lastsChance: 0.97, sheetsPerHour: 33 })),
});

describe("a view", () => {
  it("goes out at first, and not again while nothing changed", () => {
    const before = firstOut();
    expect(nextPublished(before, aBoothView(), at(5))).toBeNull();
    expect(nextPublished(before, aBoothView(), at(500))).toBeNull();
    const lookedAgain = aBoothView({ outlook: anOutlook(at(400), aMediaOutlook()) });
    expect(nextPublished(before, lookedAgain, at(500))).toBeNull();
  });

  it("goes out at once when a person reads something new", () => {
    const before = firstOut();
    const changes = [
      aBoothView({ media: aMediaView({ sheetsLeft: 244 }) }),
      aBoothView({ media: aMediaView({ question: { ask: "left", atMs: at(0), sheets: 200 } }) }),
      aBoothView({ alerts: [anAlertView()] }),
      aBoothView({ outlook: anOutlook(at(1), null) }),
    ];
    for (const view of changes) expect(nextPublished(before, view, at(1))).not.toBeNull();
  });

  it("waits ten seconds with what only drifts: the forecast and what follows from it", () => {
    const before = firstOut();
    expect(nextPublished(before, drifted, at(9))).toBeNull();
    expect(nextPublished(before, drifted, at(10))).not.toBeNull();
  });

  it("waits with the drift of an alert's figures too", () => {
    const low = (over: Partial<ReturnType<typeof anAlertView>>) =>
      aBoothView({
        alerts: [anAlertView({ matter: "sparesShort", rollsNeeded: 2, byAtMs: at(900), ...over })],
      });
    const before = nextPublished(null, low({}), at(0));
    expect(nextPublished(before, low({ byAtMs: at(905), rollsNeeded: 3 }), at(2))).toBeNull();
    expect(nextPublished(before, low({ byAtMs: at(905), rollsNeeded: 3 }), at(10))).not.toBeNull();
    expect(nextPublished(before, low({ severity: "plan" }), at(2))).not.toBeNull();
  });
});
