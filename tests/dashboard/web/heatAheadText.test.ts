import { describe, expect, it } from "vitest";
import type { HeatAhead } from "@boothward/shared-types";
import { heatAheadText } from "../../../dashboard/web/desk/heatAheadText.ts";
import { heatGroups } from "../../../dashboard/web/desk/tableRows.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { aBoothEvening, aBoothView, eveningAtMs, minuteMs } from "../../support/aBoothView.ts";
import { aHeatAhead } from "../../support/aHeatAhead.ts";
import { anOutlook } from "../../support/anOutlook.ts";

const metric = formatIn("Europe/Berlin", "metric", "en-GB");
const us = formatIn("America/New_York", "us", "en-US");
const plain = (text: string) => text.replaceAll("\u00a0", " ").replaceAll("\u202f", " ");

function said(heat: HeatAhead[], format = metric, nowMs = eveningAtMs): string {
  return plain(heatAheadText(aBoothView({ outlook: anOutlook(eveningAtMs, null, { heat }) }), nowMs, format));
}

describe("the sentence on the next hour's temperature", () => {
  const crossing = { crossAtMs: eveningAtMs + 30 * minuteMs, crossChance60: 0.31 };

  it("says when the limit is passed as it goes, and how likely within the hour", () => {
    expect(said([aHeatAhead(37, 41, crossing)])).toBe(
      "Passes 40 °C about 18:30 as it goes; three in ten that it does within the hour.",
    );
  });

  it("speaks in the reader's units and the clock of the venue", () => {
    expect(said([aHeatAhead(37, 41, crossing)], us)).toBe(
      "Passes 104 °F about 12:30 PM as it goes; three in ten that it does within the hour.",
    );
  });

  it("is never surer than nine in ten", () => {
    expect(said([aHeatAhead(39, 44, { ...crossing, crossChance60: 0.995 })])).toContain("nine in ten");
  });

  it("stays calm where the limit is far, and says a small chance as such", () => {
    expect(said([aHeatAhead(30, 31)])).toBe("Stays below 40 °C for the next hour, as far as can be seen.");
    expect(said([aHeatAhead(37, 38, { crossChance60: 0.2 })])).toBe(
      "Stays below 40 °C as it goes; two in ten that it passes it within the hour.",
    );
  });

  it("above the limit says when it is below again, or that it is not", () => {
    expect(said([aHeatAhead(42, 44)])).toBe("As it goes, it is still above it in an hour.");
    expect(said([aHeatAhead(42, 38)])).toMatch(/^As it goes, it is below 40 °C again about 18:[1-3]\d\.$/);
  });

  it("makes no forecast of too few readings, nor of an old one", () => {
    const few = [aHeatAhead(30, 45, { basis: "notEnoughData" })];
    expect(said(few)).toBe("Not enough readings yet for a look ahead.");
    expect(said([aHeatAhead(30, 31)], metric, eveningAtMs + 11 * minuteMs)).toBe(
      "Not enough readings yet for a look ahead.",
    );
    expect(said([])).toBe("");
  });

  it("names the thermometer where there are several", () => {
    const heat = [aHeatAhead(37, 41, { ...crossing, sensor: "shelf" }), aHeatAhead(30, 31)];
    expect(said(heat)).toMatch(/^At shelf: passes 40 °C about 18:30/);
  });
});

describe("the table of the temperature", () => {
  it("has what was measured, then a group for each thermometer with its band", () => {
    const ahead = [aHeatAhead(37, 41, { sensor: "shelf" }), aHeatAhead(30, 31)];
    const groups = heatGroups(aBoothEvening().inside, ahead, metric);
    expect(groups.map(({ name, rows }) => [name, rows.length])).toEqual([
      ["Measured", 2],
      ["Expected at shelf", 4],
      ["Expected at printer", 4],
    ]);
    expect(groups[1]?.rows.at(-1)?.map(plain)).toEqual(["19:00", "41.0 °C", "39 °C to 44 °C"]);
  });
});
