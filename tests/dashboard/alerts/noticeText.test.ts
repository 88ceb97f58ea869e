import type { AlertView } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { noticeText } from "../../../dashboard/alerts/noticeText.ts";
import { shortName } from "../../../dashboard/alerts/telling.ts";
import { aToldAlert, plainFormat, readAtMs } from "../../support/wordsOf.ts";

describe("a notice", () => {
  const noticeOf = (over: Partial<AlertView>, name = "Sorrel") =>
    noticeText(aToldAlert(over), name, false, readAtMs, plainFormat);

  it("is the headline where that says what to do, else both", () => {
    expect(noticeOf({ reasons: ["media-jam"] })).toBe(
      "Sorrel's printer is jammed: open it, take the paper out, close it.",
    );
    expect(noticeOf({ matter: "agentSilent" })).toBe(
      "Sorrel has been silent for 29 minutes. Ask at the booth whether it prints, then look at its network.",
    );
  });

  it("cuts the name before it cuts what to do", () => {
    const text = noticeOf({ matter: "agentSilent" }, "The Grand Lanternfish Rooms, upstairs");
    expect(text).toMatch(/^The Grand L… has been silent/);
    expect(text).toContain("Ask at the booth whether it prints, then look at its network.");
  });

  it("cuts a name between letters as people see them", () => {
    expect(shortName("👩‍👩‍👧‍👦👩‍👩‍👧‍👦👩‍👩‍👧‍👦", 24)).toBe("👩‍👩‍👧‍👦👩‍👩‍👧‍👦…");
    expect(shortName("Sorrel", 6)).toBe("Sorrel");
  });
});
