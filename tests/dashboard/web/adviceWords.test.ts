import { describe, expect, it } from "vitest";
import { stripInput } from "../../../dashboard/web/parts/stripInput.ts";
import { changeText } from "../../../dashboard/web/words/adviceWords.ts";
import { nextStep } from "../../../dashboard/web/words/nextStep.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { paperAlerts } from "../../shots/scenes.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");

/** What is advised at a booth of a scene in which Juniper has a spare roll and Sorrel none. */
function advisedAt(boothId: string) {
  const { booths, nowMs } = paperAlerts();
  const booth = booths.find((each) => each.boothId === boothId);
  if (booth?.outlook.media?.change == null) throw new Error(`${boothId} has a change to weigh`);
  return {
    text: changeText(booth.outlook.media, format),
    drawn: stripInput(booth, nowMs, false, null),
  };
}

describe("the change that is advised", () => {
  it("weighs its two moments and is drawn with its lull where a roll is at hand", () => {
    const { text, drawn } = advisedAt("juniper");
    expect(text?.doNow).toBe("Change the roll at 20:35, in the lull.");
    expect(text?.choices).toHaveLength(2);
    expect(drawn?.changeAtMs).not.toBeNull();
    expect(drawn?.lull).not.toBeNull();
  });

  it("says one time where the roll is best left to run out, and what to have ready", () => {
    const { booths } = paperAlerts();
    const juniper = booths.find(({ boothId }) => boothId === "juniper");
    const { media } = juniper?.outlook ?? {};
    if (juniper === undefined || media?.change == null) throw new Error("juniper has a change to weigh");
    const change = { ...media.change, advised: media.change.atEmpty };
    const booth = { ...juniper, outlook: { ...juniper.outlook, media: { ...media, change } } };
    expect(nextStep(booth, format)).toEqual({
      doNow: `Let the roll run out, about ${format.clock(change.atEmpty.atMs)}, then change it.`,
      why: "Have the next one at hand by then.",
    });
  });

  it("gives way to bringing a roll where none is at hand", () => {
    const { text, drawn } = advisedAt("sorrel");
    expect(text?.doNow).toMatch(/^Bring a roll by \d\d:\d\d: none is left at the booth\.$/);
    expect(text?.choices).toEqual([]);
    expect(drawn).toMatchObject({ changeAtMs: null, lull: null });
  });
});
