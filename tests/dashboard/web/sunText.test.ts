import { describe, expect, it } from "vitest";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { captionOf } from "../../../dashboard/web/desk/SunCaption.tsx";
import { sunText } from "../../../dashboard/web/plan/sunText.ts";
import { hourMs } from "../../support/aStoredItem.ts";

const format = formatIn("Europe/Oslo", "metric", "en-GB");
const midnightMs = Date.UTC(2026, 5, 20, 22);
const from = (fromHour: number, toHour: number) => ({
  fromAtMs: midnightMs + fromHour * hourMs,
  toAtMs: midnightMs + toHour * hourMs,
});

describe("the sun in a plan", () => {
  it.each([
    ["never in the polar night, nor behind a wall", [], "No sun reaches the printer that day."],
    [
      "all day in the polar day",
      [from(0, 24)],
      "The sun does not set and reaches the printer all day, if the sky is clear.",
    ],
    [
      "from one time to another",
      [from(6, 8.5)],
      "The sun reaches the printer from 06:00 to 08:30, if the sky is clear.",
    ],
    [
      "over midnight too",
      [from(20, 25)],
      "The sun reaches the printer from 20:00 to 01:00, if the sky is clear.",
    ],
    ["not known", null, "Not known: walls, heading or place are missing."],
  ])("is %s", (_, sun, text) => {
    expect(sunText(sun, format)).toBe(text);
  });
});

describe("the band of sun above the evening", () => {
  it.each([
    ["no sun", [], "No sun on the printer in these hours."],
    ["a stretch", [from(16, 18)], "The band on top is the sun on the printer, 16:00 to 18:00."],
    [
      "the polar day",
      [from(0, 24)],
      "The sun does not set: the band on top is the sun on the printer, all day.",
    ],
  ])("says %s", (_, sun, text) => {
    expect(captionOf(sun, format)).toBe(text);
  });
});
