import { describe, expect, test } from "vitest";
import { printerCondition } from "../../../../agent/sources/spooler/printerCondition.ts";
import { lookAtQueue, readSpoolerLine } from "../../../../agent/sources/spooler/spoolerLine.ts";
import { aSpoolerLine, aWindowsJob, aWindowsPrinter } from "../../../support/aSpoolerLine.ts";
import { rfc8011Reasons } from "../../../support/rfc8011Reasons.ts";

function condition(printer: object, ...masks: number[]): ReturnType<typeof printerCondition> {
  const jobs = masks.map((StatusMask, i) => aWindowsJob(i + 1, { StatusMask }));
  const line = readSpoolerLine(aSpoolerLine({ printers: [aWindowsPrinter(printer)], jobs }));
  const look = line && lookAtQueue(line, "Booth");
  if (!look || "fault" in look || look.jobs === null) throw new Error("no look at the queue");
  return printerCondition(look.printer, look.jobs);
}

describe("the state", () => {
  // Microsoft's documentation of Win32_Printer.PrinterStatus.
  test.each([
    [3, "idle"],
    [4, "processing"],
    [5, "processing"],
    [6, "stopped"],
    [7, "stopped"],
  ])("PrinterStatus %i is %s", (PrinterStatus, state) => {
    expect(condition({ PrinterStatus }).state).toBe(state);
  });
  test.each([[1], [2], [0], [null], [99]])(
    "PrinterStatus %s is not known, and never well",
    (PrinterStatus) => {
      const unknown = { PrinterStatus, DetectedErrorState: 0, ExtendedDetectedErrorState: 0 };
      expect(condition(unknown)).toEqual({ state: null, reasons: [], message: null });
    },
  );
  test("a job that is being printed says more than a status that stays idle", () => {
    expect(condition({ PrinterStatus: 3 }, 0x10).state).toBe("processing");
    expect(condition({ PrinterStatus: 2 }, 0x10).state).toBe("processing");
    expect(condition({ PrinterStatus: 3 }, 0x8).state).toBe("idle");
  });
  test("paused comes by the second status alone", () => {
    // ExtendedPrinterStatus 8, from memory.
    expect(condition({ PrinterStatus: 1, ExtendedPrinterStatus: 8 })).toMatchObject({
      state: "stopped",
      reasons: ["paused"],
    });
  });
  test("offline is a printer that gives no answer, whatever else is said", () => {
    expect(condition({ WorkOffline: true })).toEqual({
      state: "stopped",
      reasons: ["timed-out-error"],
      message: "Windows says: works offline",
    });
    expect(condition({ PrinterStatus: 7 }).reasons).toEqual(["timed-out-error"]);
  });
});

describe("the reasons", () => {
  // Microsoft's documentation of Win32_Printer.DetectedErrorState.
  test.each([
    [0, []],
    [1, ["other"]],
    [2, []],
    [3, ["media-low-warning"]],
    [4, ["media-empty-error"]],
    [5, ["marker-supply-low-warning"]],
    [6, ["marker-supply-empty-error"]],
    [7, ["door-open-error"]],
    [8, ["media-jam-error"]],
    [9, ["timed-out-error"]],
    [10, ["other"]],
    [11, ["output-area-full-error"]],
  ])("DetectedErrorState %i is %j", (DetectedErrorState, reasons) => {
    expect(condition({ DetectedErrorState }).reasons).toEqual(reasons);
  });
  // ExtendedDetectedErrorState differs from 9 on; those values from memory.
  test.each([
    [4, ["media-empty-error"]],
    [9, ["other"]],
    [10, ["output-area-full-error"]],
    [11, ["other-error"]],
    [13, ["other-error"]],
    [15, []],
  ])("ExtendedDetectedErrorState %i is %j", (ExtendedDetectedErrorState, reasons) => {
    expect(condition({ ExtendedDetectedErrorState }).reasons).toEqual(reasons);
  });
  // Microsoft's documentation of Win32_PrintJob.StatusMask.
  test.each([
    [0x1, "idle", []],
    [0x20, "stopped", ["timed-out-error"]],
    [0x40, "stopped", ["media-empty-error"]],
    [0x42, "stopped", ["media-empty-error"]],
    [0x2, "stopped", ["other-error"]],
    [0x402, "stopped", ["other-error"]],
    [0x200, "idle", ["other"]],
    [0x90, "processing", []],
  ])("a job of StatusMask %i: %s, %j", (mask, state, reasons) => {
    expect(condition({}, mask)).toMatchObject({ state, reasons });
  });
  test("both columns and the jobs saying the same is one reason", () => {
    const empty = { DetectedErrorState: 4, ExtendedDetectedErrorState: 4 };
    expect(condition(empty, 0x52, 0x40).reasons).toEqual(["media-empty-error"]);
  });
  test("low paper lets a printer go on", () => {
    expect(condition({ PrinterStatus: 4, DetectedErrorState: 3 })).toMatchObject({ state: "processing" });
  });
  test("what IPP has no word for is in the message, in plain words", () => {
    expect(condition({ ExtendedDetectedErrorState: 13 }).message).toBe("Windows says: wants a person");
  });
  test("all of them are IPP's own keywords (RFC 8011 section 5.4.12)", () => {
    const all = [...Array(18).keys()].flatMap((n) => [
      ...condition({ DetectedErrorState: n }).reasons,
      ...condition({ ExtendedDetectedErrorState: n }).reasons,
      ...condition({ PrinterStatus: n, ExtendedPrinterStatus: n }).reasons,
      ...condition({}, 1 << n).reasons,
    ]);
    expect(all.length).toBeGreaterThan(20);
    for (const reason of all) expect(rfc8011Reasons).toContain(reason.replace(/-(error|warning)$/, ""));
  });
});
