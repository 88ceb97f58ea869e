import { boothBox } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { boxBody, boxRefusal, wallOfOpening } from "../../../dashboard/web/parts/boxBody.ts";
import type { Units } from "../../../dashboard/alerts/format.ts";
import { lengthText, metresOf, shownLength } from "../../../dashboard/web/words/lengths.ts";
import { whyNotBox } from "../../../dashboard/whyNotBox.ts";
import { aTrailerBox } from "../../support/aTrailerBox.ts";

/** A form as it is filled for a trailer: a door on the left, a hatch with an awning on the right. */
const filled: Record<string, string> = {
  ...{ "box.lengthM": "4", "box.widthM": "2.4", "box.heightM": "2.2" },
  ...{ "box.openings[0].wall": "left", "box.openings[0].along": "2", "box.openings[0].widthM": "0.8" },
  ...{ "box.openings[0].heightM": "1.9", "box.openings[0].sillM": "0", "box.openings[0].awningM": "" },
  ...{ "box.openings[1].wall": "right", "box.openings[1].along": "1,6", "box.openings[1].widthM": "1.6" },
  ...{ "box.openings[1].heightM": "0.9", "box.openings[1].sillM": "1", "box.openings[1].awningM": "0.6" },
  ...{ "box.printer.xM": "1.2", "box.printer.yM": "2.1", "box.printer.heightM": "1" },
};

function body(over: Record<string, string> = {}, units: Units = "metric") {
  const fields = { ...filled, ...over };
  const text = (name: string) => fields[name] ?? "";
  const number = (name: string) => {
    const written = text(name).replace(",", ".");
    return written === "" ? null : Number.isNaN(Number(written)) ? written : Number(written);
  };
  return boxBody({ text, number, has: (name) => name in fields }, units);
}

describe("a trailer's walls as they are sent", () => {
  it("puts each opening where its wall is", () => {
    expect(body()).toEqual(aTrailerBox());
    expect(boothBox.safeParse(body()).success).toBe(true);
  });

  it.each([
    ["front", { xM: 1, yM: 4, bearingDeg: 0 }],
    ["rear", { xM: 1, yM: 0, bearingDeg: 180 }],
  ])("knows the %s wall", (wall, place) => {
    const made = body({ "box.openings[0].wall": wall, "box.openings[0].along": "1" });
    expect(made.openings[0]).toMatchObject(place);
    const read = boothBox.parse(made);
    expect(wallOfOpening(read.openings[0] ?? read.openings[1]!, read)).toEqual({ wall, alongM: 1 });
  });

  it("takes a bearing with its own place", () => {
    const at = {
      "box.openings[0].bearingDeg": "315",
      "box.openings[0].xM": "0.2",
      "box.openings[0].yM": "3.8",
    };
    const made = body({ "box.openings[0].wall": "bearing", ...at });
    expect(made.openings[0]).toMatchObject({ xM: 0.2, yM: 3.8, bearingDeg: 315 });
  });

  it("reads feet as feet", () => {
    expect(body({ "box.lengthM": "13.12" }, "us").lengthM).toBeCloseTo(4, 2);
    for (const metres of [0.6, 0.8, 1.9, 2.4])
      expect(metresOf(shownLength(metres, "us"), "us")).toBeCloseTo(metres, 2);
    expect([lengthText(1, "metric"), lengthText(1, "us")]).toEqual(["1\u00a0m", "3.3\u00a0ft"]);
  });

  it("keeps what is no number, for the dashboard to refuse", () => {
    const read = boothBox.safeParse(body({ "box.openings[1].widthM": "wide" }));
    expect(read.error?.issues.map((issue) => issue.path.join("."))).toEqual(["openings.1.widthM"]);
  });
});

describe("what the dashboard refuses of the walls", () => {
  const refusalOf = (over: Record<string, string>) => {
    const wrong = whyNotBox(boothBox.parse(body(over)));
    if (wrong === null) throw new Error("nothing is refused");
    return boxRefusal(
      { error: "wrongField", sentence: wrong.sentence, field: `box.${wrong.field}` },
      ["left", "right"],
      "",
    );
  };

  it("is shown at the field that was written, without its name in code", () => {
    const wide = refusalOf({ "box.openings[0].widthM": "4.5" });
    expect(wide?.field).toBe("box.openings[0].widthM");
    expect(wide?.sentence).toBe("4.5 is wider than the wall it is in.");
  });

  it("is shown at the distance along the wall where the form asks for that", () => {
    expect(refusalOf({ "box.openings[1].along": "4.8" })?.field).toBe("box.openings[1].along");
  });

  it("finds a place in a list that is named with a dot", () => {
    const refusal = {
      error: "wrongField",
      sentence: "box.openings.1.sillM: bad.",
      field: "box.openings.1.sillM",
    };
    expect(boxRefusal(refusal, ["left", "right"], " In metres.")).toMatchObject({
      field: "box.openings[1].sillM",
      sentence: "bad. In metres.",
    });
  });

  it("leaves alone what is not about the walls", () => {
    const refusal = { error: "nameTaken", sentence: "Taken.", field: "name" };
    expect(boxRefusal(refusal, ["left"], "")).toBe(refusal);
    expect(boxRefusal(null, [], "")).toBeNull();
  });
});
