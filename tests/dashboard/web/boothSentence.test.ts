import { describe, expect, it } from "vitest";
import type { BoothView } from "@boothward/shared-types/view";
import { boothSentence, figureText, heatSentence } from "../../../dashboard/web/words/boothSentence.ts";
import { paperBand, paperHeading } from "../../../dashboard/web/words/boothWords.ts";
import { printerWords } from "../../../dashboard/web/words/printerWords.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import {
  aBookingView,
  aBoothView,
  aMediaOutlook,
  anAlertView,
  anInsideView,
  eveningAtMs,
  hourMs,
  minuteMs,
  aMediaView,
  aPrinterView,
} from "../../support/aBoothView.ts";
import { anOutlook } from "../../support/anOutlook.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const sentence = (booth: BoothView, isCutOff = false) => boothSentence(booth, eveningAtMs, format, isCutOff);
const outlook = (over: Parameters<typeof aMediaOutlook>[0]) => anOutlook(eveningAtMs, aMediaOutlook(over));

describe("the sentence of a booth", () => {
  it("says that the paper lasts and what is to spare, in fives", () => {
    expect(sentence(aBoothView()).why).toBe("Lasts to close, about 85 to spare.");
  });

  it("says when a booth opens and that it has closed", () => {
    const opens = aBookingView({ openAtMs: eveningAtMs + hourMs });
    expect(sentence(aBoothView({ booking: opens })).why).toBe("Opens at 19:00, about 85 to spare.");
    const closed = aBookingView({ closeAtMs: eveningAtMs - minuteMs });
    expect(sentence(aBoothView({ booking: closed })).why).toBe("Closed at 17:59.");
  });

  it("gives a chance when it is a near thing, and the time when it is not", () => {
    expect(sentence(aBoothView({ outlook: outlook({ lastsChance: 0.7 }) })).why).toBe(
      "May only just last to close: 7 chances in 10.",
    );
    const emptyAtMs = { p10: eveningAtMs + hourMs, p50: eveningAtMs + 2 * hourMs, p90: null };
    expect(sentence(aBoothView({ outlook: outlook({ lastsChance: 0.2, emptyAtMs }) })).why).toBe(
      "The paper ends about 20:00, before the close.",
    );
  });

  it("puts the one thing to do of the most pressing alert first", () => {
    const found = sentence(
      aBoothView({
        health: "stopped",
        alerts: [anAlertView({ severity: "plan", matter: "tooHot" }), anAlertView({ alertId: "stop" })],
      }),
    );
    expect(found.doNow).toBe("Fit the spare roll.");
    expect(found.why).toContain("17:57");
  });

  it("says of a silent booth what would have been, and that its counts come later", () => {
    const heardAtMs = eveningAtMs - 29 * minuteMs;
    expect(sentence(aBoothView({ health: "silent", heardAtMs })).why).toBe(
      "At 17:31 it would have made it. What it counts comes in later.",
    );
    const unsure = aBoothView({ health: "silent", heardAtMs, outlook: anOutlook(heardAtMs) });
    expect(sentence(unsure).why).toBe("Nothing heard since 17:31. What it counts comes in later.");
  });

  it("says what is not known instead of something that sounds well", () => {
    expect(sentence(aBoothView({ booking: null, health: "unknown" })).why).toBe(
      "No open hours on the run sheet now.",
    );
    expect(sentence(aBoothView({ media: null, health: "unknown" })).why).toBe(
      "How much paper is left is not known.",
    );
    expect(sentence(aBoothView({ printer: null, health: "unknown" })).why).toBe(
      "Whether the printer can print is not known.",
    );
    expect(sentence(aBoothView({ heardAtMs: null })).why).toContain("Not heard yet");
    expect(sentence(aBoothView(), true).why).toBe("As it was at 17:59.");
  });
});

describe("the figures of a booth", () => {
  const media = aMediaView({ sheetsLeft: 158, atMs: eveningAtMs });
  it.each([
    ["metered", "158"],
    ["confirmed", "158"],
    ["counted", "about 158"],
    ["doubtful", "about 158"],
  ] as const)("say of a %s one: %s", (figure, text) => {
    expect(figureText({ ...media, figure }, format)).toBe(text);
  });

  it("speak of the temperature near the limit and in a trailer only", () => {
    expect(heatSentence(aBoothView(), eveningAtMs, format)).toBeNull();
    const warm = anInsideView({ insideC: 36, atMs: eveningAtMs, per15MinC: null });
    expect(heatSentence(aBoothView({ inside: warm }), eveningAtMs, format)).toBe(
      "36\u00a0°C, limit 40\u00a0°C.",
    );
    expect(heatSentence(aBoothView({ isTrailer: true }), eveningAtMs, format)).toBe(
      "27\u00a0°C, limit 40\u00a0°C.",
    );
    const old = { ...warm, atMs: eveningAtMs - 20 * minuteMs };
    expect(heatSentence(aBoothView({ inside: old }), eveningAtMs, format)).toBe(
      "36\u00a0°C at 17:40, not seen since.",
    );
  });

  it("say in the heading of the picture how long the paper lasts", () => {
    expect(paperHeading(aBoothView(), format, false)).toBe("246 sheets left: the paper lasts to close.");
    const emptyAtMs = {
      p10: eveningAtMs + hourMs,
      p50: eveningAtMs + 2 * hourMs,
      p90: eveningAtMs + 3 * hourMs,
    };
    const ends = aBoothView({ outlook: outlook({ lastsChance: 0.05, emptyAtMs }) });
    expect(paperHeading(ends, format, false)).toBe(
      "246 sheets left, enough until about 20:00; close is at 23:00.",
    );
    expect(paperBand(ends, format)).toBe("Empty between 19:00 and 21:00, eight times in ten.");
    expect(paperHeading(aBoothView({ media: null }), format, false)).toBe(
      "How much paper is left is not known.",
    );
  });

  // Keywords and suffixes: RFC 8011 section 5.4.12.
  it("say the printer's state and reasons in words, and an unknown keyword as it came", () => {
    const printer = aPrinterView({ sinceAtMs: eveningAtMs });
    expect(printerWords({ ...printer, state: "stopped", reasons: ["media-empty-error"] })).toBe(
      "stopped, is out of paper",
    );
    expect(printerWords({ ...printer, state: "idle", reasons: ["none"] })).toBe("ready");
    expect(printerWords({ ...printer, state: null, reasons: ["vendor-glow-warning"] })).toContain(
      "vendor-glow",
    );
  });
});
