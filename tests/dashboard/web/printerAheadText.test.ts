import type { HeatAhead, PrinterAhead } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { printerAheadText } from "../../../dashboard/web/desk/printerAheadText.ts";
import { aBoothView, eveningAtMs } from "../../support/aBoothView.ts";
import { aHeatAhead } from "../../support/aHeatAhead.ts";
import { anOutlook } from "../../support/anOutlook.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const pause = { pauseMinutes: 10, cost: { guestsDelayed: 7.6, clearsInMinutes: 12.2 } };
const slower = { isByHeat: true, usualS: 14, lateS: 19 };

function said(over: Partial<PrinterAhead> | null, heat: HeatAhead[] = [aHeatAhead(30, 31)]): string {
  const printer = over === null ? null : { slowing: null, pause, ...over };
  return printerAheadText(
    aBoothView({ outlook: anOutlook(eveningAtMs, null, { heat, printer }) }),
    eveningAtMs,
    format,
  );
}

describe("the sentence on a printer's own pace", () => {
  it("names the early sign and what a rest would cost", () => {
    expect(said({ slowing: slower })).toBe(
      "It prints slower as it warms: 19 seconds a sheet lately, 14 before. Many printers pause like this before they stop. " +
        "10 minutes of rest for it now would make about 8 groups wait; 12 minutes after it the line is gone.",
    );
  });

  it("points elsewhere where it is not the heat, and advises no rest then", () => {
    expect(said({ slowing: { ...slower, isByHeat: false } })).toBe(
      "It prints slower, and not for heat: 19 seconds a sheet lately, 14 before. Look at paper, ribbon and cable.",
    );
  });

  it("weighs a rest where the limit is passed or may well be, and says nothing where all is well", () => {
    expect(said({}, [aHeatAhead(37, 41, { crossChance60: 0.4 })])).toMatch(/^10 minutes of rest/);
    expect(said({}, [aHeatAhead(42, 44)])).toMatch(/^10 minutes of rest/);
    expect(said({})).toBe("");
    expect(said(null, [aHeatAhead(42, 44)])).toBe("");
  });

  it("says when hardly anybody would wait, and when the line would stay", () => {
    const hot = [aHeatAhead(42, 44)];
    const quiet = { pauseMinutes: 10, cost: { guestsDelayed: 0.3, clearsInMinutes: 0.2 } };
    expect(said({ pause: quiet }, hot)).toContain("hardly anybody wait; 1 minute after");
    expect(said({ pause: { pauseMinutes: 10, cost: null } }, hot)).toContain("a line that stays");
  });
});
