import { checkName, type OpeningCheck } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { checkText } from "../../../dashboard/web/words/checkText.ts";
import { checkLines } from "../../../dashboard/web/words/en/checks.ts";
import { formatIn } from "../../../dashboard/alerts/format.ts";
import { eveningAtMs } from "../../support/aBoothView.ts";

const format = formatIn("Europe/Berlin", "metric", "en-GB");
const aCheck = (over: Partial<OpeningCheck>): OpeningCheck => ({
  ...{ check: "level", state: "toDo", fault: null, by: null, atMs: null, figures: {}, details: [] },
  ...over,
});
const note = (over: Partial<OpeningCheck>) => checkText(aCheck(over), format).note.replaceAll("\u00a0", " ");

describe("a line of the checks", () => {
  it("says what was found when it is well, and what to do when it is not", () => {
    expect(note({ check: "paper", state: "seen", figures: { sheetsLeft: 300 } })).toBe(
      "300 sheets on the roll",
    );
    expect(note({ check: "printerAnswers", state: "toDo", details: ["cover-open"] })).toMatch(
      /^Cover open|^The cover is open|open.*\. Check its cable/i,
    );
    expect(note({ check: "paperEnough", state: "toDo", figures: { needed: 2, spares: 1 } })).toBe(
      "2 rolls beside the loaded one are needed, 1 are here. Fetch more rolls, or agree on fewer prints.",
    );
    expect(note({ check: "clock", state: "seen", figures: { offMs: 300 } })).toBe("right to the second");
    expect(note({ check: "clock", state: "toDo", figures: { offMs: 120_000 } })).toMatch(/^2 min off/);
    expect(note({ check: "temperature", state: "toDo", figures: { insideC: 41, limitC: 40 } })).toMatch(
      /^41.0 °C, limit 40 °C\. Shade/,
    );
    expect(note({ check: "disk", state: "toDo", figures: { freeMb: 900, needMb: 14_000 } })).toMatch(
      /^1 GB free, about 14 GB needed\./,
    );
  });

  it("names the fault of what cannot be seen, and who ticked when", () => {
    expect(note({ check: "camera", state: "notPossible", fault: "unsupported" })).toMatch(
      /^Cannot be read on this computer\. /,
    );
    expect(note({ state: "ticked", by: "Ama Quill", atMs: eveningAtMs })).toBe("Ama Quill, 18:00");
  });

  it("has a name and a note in each state, without a figure that is not known", () => {
    for (const check of checkName.options)
      for (const state of ["toDo", "question", "notPossible"] as const) {
        const fault = state === "notPossible" ? "missing" : null;
        const text = checkText(aCheck({ check, state, fault }), format);
        expect(text.name).toBe(checkLines[check].name);
        expect(text.note).toContain(checkLines[check].how);
        expect(text.note).not.toMatch(/NaN|undefined|null/);
      }
  });
});
