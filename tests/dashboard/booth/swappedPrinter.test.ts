import { describe, expect, it } from "vitest";
import { mediaNow } from "../../../dashboard/booth/mediaNow.ts";
import { tallyOf } from "../../../dashboard/booth/tally.ts";
import { aBookedTime } from "../../support/aBooking.ts";
import { aBooth, stateOf } from "../../support/aBooth.ts";
import { minuteMs, sixAtMs, type StoryLine } from "../../support/aStoredItem.ts";

const to = (queue: string, over = {}) => ({ queue, ...over });

/** The first printer gives out at 19:00 with 150 on its roll; a spare one goes on with a part roll of 230. */
const swap: StoryLine[] = [
  [0, "rollFitted", { sheets: 200 }],
  [0, "printerState", to("first")],
  [1, "counter", to("first", { pitchesEver: 5_000 })],
  [1, "media", to("first", { sheetsLeft: 198 })],
  [50, "counter", to("first", { pitchesEver: 5_048 })],
  [50, "media", to("first", { sheetsLeft: 150 })],
  [60, "printerState", to("first", { state: "stopped", reasons: ["other-error"] })],
  [65, "rollTakenOff", { sheetsLeft: null }],
  [65.1, "rollFitted", { sheets: 230, by: "Ama" }],
  [66, "printerState", to("spare")],
  [66, "counter", to("spare", { pitchesEver: 91_000 })],
];

const leftAt = (minute: number, ...more: StoryLine[]) =>
  mediaNow(stateOf([...swap, ...more]), aBooth(), { sheetsLoaded: null, fromAtMs: sixAtMs - minute });

describe("a printer that is swapped in mid-event", () => {
  it("goes on with the paper that was said to be on the other one, whatever the first one's meter said last", () => {
    expect(leftAt(67)).toMatchObject({ sheetsLeft: 230 });
    const printed: StoryLine = [70, "counter", to("spare", { pitchesEver: 91_010 })];
    expect(leftAt(71, printed)).toMatchObject({ sheetsLeft: 220 });
    const metered: StoryLine = [72, "media", to("spare", { sheetsLeft: 217 })];
    expect(leftAt(73, printed, metered)).toMatchObject({ sheetsLeft: 217, figure: "metered" });
  });

  it("counts what both printed, and not the other one's life before", () => {
    const state = stateOf([...swap, [70, "counter", to("spare", { pitchesEver: 91_010 })]]);
    const booking = aBookedTime();
    const tally = tallyOf(
      state,
      { booking, fromAtMs: booking.fromAtMs, toAtMs: booking.toAtMs },
      sixAtMs + 80 * minuteMs,
    );
    expect(tally.pitches).toBe(58);
  });
});
