import { describe, expect, it } from "vitest";
import { whyNotBearing } from "../../../../dashboard/forecast/sun/whyNot.ts";
import { whyNotFrame } from "../../../../dashboard/forecast/sun/whyNotFrame.ts";
import { whyNotSite, whyNotViews } from "../../../../dashboard/forecast/sun/whyNotSite.ts";
import type { BoothFrame } from "../../../../dashboard/forecast/sun/boothFrame.ts";
import { aBoothFrame, anOpening, anOpeningView, aSunSite } from "../../../support/aBoothFrame.ts";

const withOpening = (parts: Parameters<typeof anOpening>[0]) => ({ openings: [anOpening(parts)] });

describe("a booth's frame", () => {
  it("is taken when its figures can be", () => {
    const side = anOpening({
      xM: 0,
      yM: 2,
      bearingDeg: -90,
      widthM: 3.9,
      overhang: { depthM: 1, heightM: 2 },
    });
    expect(whyNotFrame(aBoothFrame())).toBeNull();
    expect(whyNotFrame(aBoothFrame({ openings: [anOpening(), side] }))).toBeNull();
  });

  it.each<[string, Partial<BoothFrame>, string, number, string, number | null]>([
    ["a heading of 725", { headingDeg: 725 }, "headingDeg", 725, "notABearing", 360],
    ["no figure", { headingDeg: NaN }, "headingDeg", NaN, "notANumber", null],
    ["a trailer typed in centimetres", { lengthM: 400 }, "lengthM", 400, "sizeOutOfRange", 20],
    ["a flat trailer", { heightM: 0 }, "heightM", 0, "sizeOutOfRange", 0],
    ["no opening", { openings: [] }, "openings", 0, "noOpening", null],
    [
      "an opening wider than its wall",
      withOpening({ widthM: 3 }),
      "openings[0].widthM",
      3,
      "widerThanTrailer",
      2.5,
    ],
    ["one of no width", withOpening({ widthM: 0 }), "openings[0].widthM", 0, "sizeOutOfRange", 0],
    ["one above the roof", withOpening({ sillM: 1 }), "openings[0].heightM", 2.9, "higherThanTrailer", 2.3],
    ["one outside", withOpening({ yM: 5 }), "openings[0].yM", 5, "outsideTrailer", 4.1],
    [
      "one that looks nowhere",
      withOpening({ bearingDeg: 500 }),
      "openings[0].bearingDeg",
      500,
      "notABearing",
      360,
    ],
    [
      "an awning inside",
      withOpening({ overhang: { depthM: -1, heightM: 2 } }),
      "openings[0].overhang.depthM",
      -1,
      "sizeOutOfRange",
      0,
    ],
    ["a printer outside", { printer: { xM: 3, yM: 2, heightM: 1 } }, "printer.xM", 3, "outsideTrailer", 2.5],
    [
      "a printer on the roof",
      { printer: { xM: 1, yM: 2, heightM: 3 } },
      "printer.heightM",
      3,
      "higherThanTrailer",
      2.3,
    ],
    [
      "a printer in the door",
      { printer: { xM: 1.2, yM: 4, heightM: 1 } },
      "openings[0]",
      0,
      "printerNotBehindOpening",
      0,
    ],
  ])("refuses %s by its field and its figure", (_, parts, field, value, why, limit) => {
    const refused = whyNotFrame(aBoothFrame(parts));
    expect(refused).toEqual({
      field,
      why,
      value,
      limit: limit === null ? null : (expect.closeTo(limit, 9) as number),
    });
  });
});

describe("a site", () => {
  it("is refused beyond the poles, beyond the date line, and with a horizon above the zenith", () => {
    expect(whyNotSite(aSunSite(90, -180, 12))).toBeNull();
    expect(whyNotSite(aSunSite(91, 0))).toMatchObject({
      field: "latitudeDeg",
      value: 91,
      why: "latitudeOutOfRange",
    });
    expect(whyNotSite(aSunSite(40, 255))).toMatchObject({
      field: "longitudeDeg",
      why: "longitudeOutOfRange",
    });
    expect(whyNotSite(aSunSite(40, 0, 95))).toMatchObject({
      ...{ field: "horizon[0].elevationDeg", value: 95, why: "horizonOutOfRange" },
    });
  });
});

describe("a typed bearing", () => {
  it("is taken from -180 to 360, and 725 is refused, not wound round", () => {
    expect([-180, 0, 360].map((deg) => whyNotBearing("bearingDeg", deg))).toEqual([null, null, null]);
    expect(whyNotBearing("bearingDeg", 725)).toEqual({
      field: "bearingDeg",
      value: 725,
      why: "notABearing",
      limit: 360,
    });
    expect(whyNotBearing("bearingDeg", Infinity)?.why).toBe("notANumber");
  });
});

describe("openings with the printer's place measured from them", () => {
  it("are taken with and without it", () => {
    expect(whyNotViews([anOpeningView(), anOpeningView({ printer: null })])).toBeNull();
  });

  it("are refused by the field and the figure", () => {
    const inFront = anOpeningView({ printer: { depthM: 0, rightM: 0, heightM: 1 } });
    expect(whyNotViews([anOpeningView(), inFront])).toEqual({
      ...{ field: "openings[1].printer.depthM", value: 0, why: "printerNotBehindOpening", limit: 0 },
    });
    expect(whyNotViews([anOpeningView({ bearingDeg: 725 })])?.field).toBe("openings[0].bearingDeg");
    expect(whyNotViews([anOpeningView({ widthM: 90 })])).toMatchObject({ why: "sizeOutOfRange", limit: 20 });
    expect(whyNotViews([anOpeningView({ sillM: NaN })])?.why).toBe("notANumber");
  });
});
