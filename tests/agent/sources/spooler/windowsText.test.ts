import { describe, expect, test } from "vitest";
import { restartDelayMs } from "../../../../agent/sources/spooler/keepChild.ts";
import { splitLines } from "../../../../agent/sources/spooler/splitLines.ts";
import { lookAtQueue, readSpoolerLine } from "../../../../agent/sources/spooler/spoolerLine.ts";
import { readWindowsMoment } from "../../../../agent/sources/spooler/windowsMoment.ts";
import { aSpoolerLine, aWindowsJob, aWindowsPrinter } from "../../../support/aSpoolerLine.ts";

const sixMs = Date.UTC(2031, 5, 14, 18, 0, 0, 500);

describe("moments as Windows writes them", () => {
  test.each([
    ["ISO 8601 with seven digits, as .NET's round-trip format", "2031-06-14T18:00:00.5000000Z"],
    ["ISO 8601 with an offset", "2031-06-14T20:00:00.500+02:00"],
    ["what ConvertTo-Json of PowerShell 5.1 makes of a date", `/Date(${sixMs})/`],
    ["the same with the offset it was shown with", `/Date(${sixMs}+0200)/`],
    ["DMTF, two hours east", "20310614200000.500000+120"],
    ["DMTF, three and a half hours west", "20310614143000.500000-210"],
  ])("%s", (_, text) => {
    expect(readWindowsMoment(text)).toBe(sixMs);
  });
  test.each([
    ["without its zone", "2031-06-14T18:00:00.5"],
    ["DMTF of which parts are not known", "2031061420****.******+120"],
    ["of a length of time", "00000001132312.000000:000"],
    ["in words", "June 14"],
    ["of nothing", ""],
  ])("one %s is not known", (_, text) => {
    expect(readWindowsMoment(text)).toBeNull();
  });
});

describe("lines out of bytes", () => {
  function split(mostBytes: number, ...pieces: (Buffer | string)[]): (string | null)[] {
    const lines: (string | null)[] = [];
    const take = splitLines(mostBytes, (line) => lines.push(line));
    for (const piece of pieces) take(Buffer.from(piece));
    return lines;
  }
  test("both line ends, a mark at the beginning, and what has no end yet", () => {
    expect(split(100, "\uFEFFone\r\ntwo\n\nthr")).toEqual(["one", "two", ""]);
  });
  test("every way to cut a text in two gives the same lines", () => {
    const bytes = Buffer.from("Größe 1\r\n写真 🎞\n");
    for (let at = 0; at <= bytes.length; at += 1)
      expect(split(100, bytes.subarray(0, at), bytes.subarray(at))).toEqual(["Größe 1", "写真 🎞"]);
  });
  test("what is not UTF-8 or too long is no line, and the next one is", () => {
    expect(split(100, Buffer.from([0x94, 0x0a]), "next\n")).toEqual([null, "next"]);
    expect(split(10, "x".repeat(8), "x".repeat(8), "x\nnext\n")).toEqual([null, "next"]);
  });
});

describe("lines of the script", () => {
  test("lists in the three ways that PowerShell 5.1 writes one", () => {
    const [printer] = [aWindowsPrinter()];
    for (const printers of [printer, [printer], { value: [printer], Count: 1 }])
      expect(readSpoolerLine(aSpoolerLine({ printers }))?.printers).toHaveLength(1);
    for (const jobs of [null, [], { value: [], Count: 0 }, undefined])
      expect(readSpoolerLine(aSpoolerLine({ jobs }))?.jobs).toEqual([]);
  });
  test("fields that Windows leaves empty are not known, not 0", () => {
    const empty = { StatusMask: null, PagesPrinted: null, TotalPages: undefined, TimeSubmitted: null };
    expect(readSpoolerLine(aSpoolerLine({ jobs: [aWindowsJob(1, empty)] }))?.jobs).toEqual([
      {
        Name: "Booth, 1",
        JobId: 1,
        StatusMask: null,
        PagesPrinted: null,
        TotalPages: null,
        TimeSubmitted: null,
      },
    ]);
  });
  test.each(["", "[]", "null", "{}", '{"version":2}', '{"version":1,"printers":"none"}'])(
    "%j is none",
    (text) => {
      expect(readSpoolerLine(text)).toBeNull();
    },
  );
  test("names with commas, brackets and other letters' case are matched", () => {
    const name = "Booth, left (2)";
    const line = readSpoolerLine(
      aSpoolerLine({
        printers: [aWindowsPrinter({ Name: name })],
        jobs: [aWindowsJob(4, { Name: `${name}, 4` }), aWindowsJob(5, { Name: "Booth, 5" })],
        counters: [
          { Name: "Booth", TotalPagesPrinted: 1 },
          { Name: "Booth, left [2]", TotalPagesPrinted: 9 },
        ],
      }),
    );
    const look = line && lookAtQueue(line, "booth, LEFT (2)");
    expect(look).toMatchObject({ printer: { Name: name }, jobs: [{ JobId: 4 }], pagesEver: 9 });
  });
});

test("a program that ends is started twice as late each time, up to a minute", () => {
  expect([0, 1, 2, 5, 6, 60].map((failures) => restartDelayMs(failures, 1_000))).toEqual([
    1_000, 2_000, 4_000, 32_000, 60_000, 60_000,
  ]);
});
