import { describe, expect, test } from "vitest";
import type { IppAttribute, IppGroup } from "../../../../agent/sources/ipp/ippMessage.ts";
import { readMeters, sheetsInMessage } from "../../../../agent/sources/ipp/meters.ts";
import type { JobSeen, PrinterSeen } from "../../../../agent/sources/ipp/operations.ts";
import { pitchesPerPage } from "../../../../agent/sources/pitches.ts";
import { printerItems, printItem, toldNothing } from "../../../../agent/sources/ipp/printerItems.ts";

const ints = (name: string, ...values: number[]): IppAttribute => ({
  name,
  values: values.map((int) => ({ syntax: "integer", int })),
});
const texts = (name: string, ...values: string[]): IppAttribute => ({
  name,
  values: values.map((text) => ({ syntax: "text", text })),
});
const octets = (name: string, ...values: string[]): IppAttribute => ({
  name,
  values: values.map((text) => ({ syntax: "octetString", bytes: Buffer.from(text) })),
});
const aPrinter = (...attributes: IppAttribute[]): IppGroup => ({ tag: 0x04, attributes });

describe("meters", () => {
  // CUPS' IPP extensions: marker-levels -1 unavailable, -2 unknown, -3 unknown but not yet at capacity.
  test.each([-1, -2, -3])("a level of %i is unknown", (level) => {
    expect(readMeters(aPrinter(ints("marker-levels", level)), null)).toEqual([
      { part: "part 1", sheetsLeft: null, leftPct: null, ageMs: null },
    ]);
  });
  test("a level of 0 is empty, not unknown", () => {
    expect(readMeters(aPrinter(ints("marker-levels", 0)), null)[0]?.leftPct).toBe(0);
  });
  test("their age is that of the printer's own clock, and unknown before the first job", () => {
    const printer = (changedAtS: number): IppGroup =>
      aPrinter(ints("marker-levels", 50), ints("marker-change-time", changedAtS));
    expect(readMeters(printer(1_900_000_000), 1_900_000_090)[0]?.ageMs).toBe(90_000);
    expect(readMeters(printer(0), 1_900_000_090)[0]?.ageMs).toBeNull();
    expect(readMeters(printer(1_900_000_000), null)[0]?.ageMs).toBeNull();
  });
  test.each([
    ["398 native prints remaining on 4x6 media", 398],
    ["43 prints left", 43],
    ["1 print left", 1],
    ["Prints left: 43", null],
    ["Ready", null],
    ["", null],
  ])("the message %j holds %j sheets", (message, sheets) => {
    expect(sheetsInMessage(message)).toBe(sheets);
  });
  // The texts are those ippeveprinter and CUPS send, PWG 5100.13 section 5.6.33.
  test("supplies stand in where there are no markers; a waste box is none", () => {
    const printer = aPrinter(
      octets(
        "printer-supply",
        "index=1;class=receptacleThatIsFilled;type=wasteToner;unit=percent;maxcapacity=100;level=25;",
        "index=2;class=supplyThatIsConsumed;type=ribbonWax;unit=impressions;maxcapacity=400;level=38;",
        "index=3;class=supplyThatIsConsumed;type=other;unit=percent;maxcapacity=100;level=-3;",
      ),
      texts("printer-supply-description", "Waste", "Ribbon"),
    );
    expect(readMeters(printer, null)).toEqual([
      { part: "Ribbon", sheetsLeft: 38, leftPct: 9.5, ageMs: null },
      { part: "other", sheetsLeft: null, leftPct: null, ageMs: null },
    ]);
  });
  test("descriptions that repeat, as CUPS 2.4.2 sends them, do not matter", () => {
    const names = texts("printer-supply-description", "Ribbon");
    const supply = octets("printer-supply", "class=supplyThatIsConsumed;unit=percent;level=10;");
    expect(readMeters(aPrinter(supply, names, names, names), null)).toMatchObject([
      { part: "Ribbon", leftPct: 10 },
    ]);
  });
});

// Common practice, no source: 4x6 = 1, a page of two 2x6 strips = 1, 6x8 = 2 lengths of 4x6.
describe("lengths of paper a page takes", () => {
  test.each([
    ["na_index-4x6_4x6in", 1],
    ["oe_photo-6x8_6x8in", 2],
    ["om_dsc-photo_152x203mm", 2],
    ["om_small-photo_100x150mm", 1],
    ["custom_strips_2x6in", 1],
    ["na_5x7_5x7in", 1],
    ["w432h576", 2],
    ["w288h432-div2", 1],
    ["6x8", 2],
    ["4x6.Borderless", 1],
    ["na_letter_8.5x11in", 1],
    ["glossy", 1],
  ])("%s takes %i", (media, pitches) => {
    expect(pitchesPerPage([media])).toBe(pitches);
  });
  test("a job that names no media takes one", () => {
    expect(pitchesPerPage([])).toBe(1);
  });
});

describe("a print", () => {
  const job: JobSeen = {
    jobId: 7,
    uuid: null,
    state: 9,
    copies: 2,
    impressions: 2,
    createdAtS: 1_900_000_000,
    completedAtS: 1_900_000_020,
    upTimeS: 1_900_000_020,
    media: [],
  };
  test.each([
    [{ copies: 2, impressions: 2 }, 2],
    [{ copies: 2, impressions: 1 }, 2],
    [{ copies: 2, impressions: 0 }, 2],
    [{ copies: 1, impressions: 3 }, 3],
    [{ copies: null, impressions: null }, 1],
  ])("%j is %i pieces", (figures, pieces) => {
    expect(printItem("booth", { ...job, ...figures }, "p", null).item).toMatchObject({
      copies: pieces,
      pitches: pieces,
    });
  });
  test("the setting for its paper goes before the name of its media", () => {
    const large = { ...job, media: ["oe_photo-6x8_6x8in"] };
    expect(printItem("booth", large, "p", null).item).toMatchObject({ pitches: 4 });
    expect(printItem("booth", large, "p", 1).item).toMatchObject({ pitches: 2 });
  });
  test("was made when the printer says, by the printer's own clock", () => {
    expect(printItem("booth", { ...job, upTimeS: 1_900_003_620 }, "p", null).agoMs).toBe(3_600_000);
    expect(printItem("booth", { ...job, upTimeS: 1_900_000_021 }, "p", null).agoMs).toBe(0);
    expect(printItem("booth", { ...job, completedAtS: null }, "p", null).agoMs).toBe(0);
  });
});

describe("what is told of a printer", () => {
  const printer: PrinterSeen = {
    queue: "booth",
    state: "idle",
    reasons: [],
    message: null,
    queuedJobs: 0,
    upTimeS: null,
    meters: [{ part: "kit", sheetsLeft: 398, leftPct: null, ageMs: 0 }],
  };
  const first = printerItems(toldNothing, "booth", printer, 0);
  const kinds = (seen: PrinterSeen, monoMs: number): string[] =>
    printerItems(first.told, "booth", seen, monoMs).items.map(({ item }) => item.kind);

  test("everything at first, then only what changed", () => {
    expect(first.items.map(({ item }) => item.kind)).toEqual(["printerState", "media", "queue"]);
    expect(kinds(printer, 5_000)).toEqual([]);
    expect(kinds({ ...printer, state: "processing" }, 5_000)).toEqual(["printerState"]);
    expect(kinds({ ...printer, reasons: ["media-jam-error"] }, 5_000)).toEqual(["printerState"]);
    expect(kinds({ ...printer, queuedJobs: 1 }, 5_000)).toEqual(["queue"]);
    expect(kinds({ ...printer, queuedJobs: null }, 5_000)).toEqual(["queue"]);
    const meters = [{ part: "kit", sheetsLeft: 397, leftPct: null, ageMs: 0 }];
    expect(kinds({ ...printer, meters }, 5_000)).toEqual(["media"]);
  });
  test("the queue once a minute, a new message or a new age not at all", () => {
    expect(kinds(printer, 60_000)).toEqual(["queue"]);
    const meters = [{ part: "kit", sheetsLeft: 398, leftPct: null, ageMs: 9_000 }];
    expect(kinds({ ...printer, message: "Printing page 2", meters }, 5_000)).toEqual([]);
  });
  test("reasons in another order are no change", () => {
    const two = printerItems(toldNothing, "booth", { ...printer, reasons: ["a", "b"] }, 0);
    expect(printerItems(two.told, "booth", { ...printer, reasons: ["b", "a"] }, 1).items).toEqual([]);
  });
});
