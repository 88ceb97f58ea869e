import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  doesStop,
  isPrinterStopped,
  readReason,
  saysEmpty,
  worstKeywords,
} from "../../../dashboard/booth/printerReasons.ts";
import { rfc8011Reasons } from "../../support/rfc8011Reasons.ts";

const suffixes = ["error", "warning", "report"] as const;

describe("printer-state-reasons (RFC 8011 section 5.4.12)", () => {
  it.each(rfc8011Reasons)("takes %s apart with each suffix, and keeps it without", (keyword) => {
    expect(readReason(keyword)).toEqual({ keyword, suffix: null });
    for (const suffix of suffixes) {
      expect(readReason(`${keyword}-${suffix}`)).toEqual({ keyword, suffix });
    }
  });

  it.each(rfc8011Reasons)(
    "lets the suffix of %s decide: an error stops, a warning and a report do not",
    (keyword) => {
      expect(suffixes.map((suffix) => doesStop(readReason(`${keyword}-${suffix}`)))).toEqual([
        true,
        false,
        false,
      ]);
    },
  );

  // Source: the definitions in RFC 8011 section 5.4.12, read by us: what keeps paper from coming out.
  it("judges by the keyword where there is no suffix", () => {
    const stopping = rfc8011Reasons.filter((keyword) => doesStop(readReason(keyword)));
    expect(stopping).toEqual([
      ...["cover-open", "developer-empty", "door-open", "fuser-over-temp", "input-tray-missing"],
      ...["interlock-open", "marker-supply-empty", "marker-waste-full", "media-empty", "media-jam"],
      ...["media-needed", "opc-life-over", "output-area-full", "output-tray-missing", "paused"],
      ...["shutdown", "timed-out", "toner-empty"],
    ]);
  });

  it("does not stop for a keyword nobody knows, and keeps it", () => {
    expect(isPrinterStopped("idle", ["spider-in-tray"])).toBe(false);
    expect(worstKeywords(["spider-in-tray"])).toEqual(["spider-in-tray"]);
    expect(isPrinterStopped("idle", ["spider-in-tray-error"])).toBe(true);
    expect(worstKeywords(["spider-in-tray-error"])).toEqual(["spider-in-tray"]);
  });
});

describe("whether a printer can print", () => {
  it("is not said by 'processing': a print server goes on without paper", () => {
    const seenAtCups = [
      "marker-supply-low-warning",
      "marker-supply-empty-error",
      "media-empty-error",
      "media-needed",
    ];
    expect(isPrinterStopped("processing", seenAtCups)).toBe(true);
    expect(isPrinterStopped("processing", ["marker-supply-low-warning"])).toBe(false);
  });

  it("is denied by 'stopped' alone, and by a reason without a state", () => {
    expect(isPrinterStopped("stopped", [])).toBe(true);
    expect(isPrinterStopped(null, ["media-jam"])).toBe(true);
    expect(isPrinterStopped(null, [])).toBe(false);
  });

  it("names the worst first, each once, and only what stops where something does", () => {
    const reasons = ["media-low-warning", "paused", "media-empty-error", "media-jam", "media-empty"];
    expect(worstKeywords(reasons)).toEqual(["media-jam", "media-empty", "paused"]);
    expect(worstKeywords(["none"])).toEqual([]);
    expect(worstKeywords(["media-low-warning", "none"])).toEqual(["media-low"]);
  });

  it("calls empty what an error or a bare keyword says, not a warning", () => {
    expect(saysEmpty(["media-empty"])).toBe(true);
    expect(saysEmpty(["marker-supply-empty-error"])).toBe(true);
    expect(saysEmpty(["media-empty-warning", "media-low"])).toBe(false);
  });

  it("never forgets a reason: what does not stop is still named", () => {
    fc.assert(
      fc.property(fc.array(fc.stringMatching(/^[a-z][a-z-]{0,20}[a-z]$/), { minLength: 1 }), (sent) => {
        const named = worstKeywords(sent);
        const real = sent.filter((reason) => reason !== "none");
        expect(named.length > 0).toBe(real.length > 0);
        expect(isPrinterStopped("idle", sent)).toBe(real.some((reason) => doesStop(readReason(reason))));
      }),
    );
  });
});
