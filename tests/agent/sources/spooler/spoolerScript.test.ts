import { describe, expect, test } from "vitest";
import { powerShellCommand, spoolerScript } from "../../../../agent/sources/spooler/spoolerScript.ts";
import { aWindowsJob, aWindowsPrinter } from "../../../support/aSpoolerLine.ts";

/** The script itself is not run here: there is no Windows PowerShell on the machines that run these tests. */
const command = powerShellCommand({ queue: "Booth'; exit #", everyMs: 2_000 }, { SystemRoot: "D:\\Windows" });

describe("the command", () => {
  test("carries the whole script, in UTF-16 as -EncodedCommand wants it", () => {
    const encoded = command.args[command.args.indexOf("-EncodedCommand") + 1] ?? "";
    expect(Buffer.from(encoded, "base64").toString("utf16le")).toBe(spoolerScript);
  });
  test("stays below the longest command line that Windows starts", () => {
    // Microsoft's documentation of CreateProcessW: 32,767 characters, the closing zero included.
    expect([command.file, ...command.args].join(" ").length).toBeLessThan(32_767);
  });
  test("starts the PowerShell that belongs to Windows, wherever that is", () => {
    expect(command.file).toBe("D:\\Windows\\System32\\WindowsPowerShell\\v1.0\\powershell.exe");
    expect(powerShellCommand({ queue: null, everyMs: 1 }, {}).file).toMatch(/^C:\\Windows\\System32\\/);
  });
  test("hands the queue's name on as a value, never as PowerShell", () => {
    expect(command.env).toEqual({ BOOTHWARD_QUEUE: "Booth'; exit #", BOOTHWARD_EVERY_MS: "2000" });
    expect(command.args.join(" ")).not.toContain("Booth'");
  });
});

/** Names of the fields that the script takes from rows of a class: `Name = $_.Name`. */
function fieldsBetween(from: string, to: string): string[] {
  const part = spoolerScript.slice(spoolerScript.indexOf(from), spoolerScript.indexOf(to));
  return [...part.matchAll(/(\w+) = (?:ConvertTo-IsoText )?\$_\.(\w+)/g)].map(([, key, field]) => {
    expect(key).toBe(field);
    return String(key);
  });
}

describe("the script", () => {
  test("writes the fields that the fake child of the other tests writes", () => {
    expect(fieldsBetween("$printers = @(Get", "$faults['printers']")).toEqual(Object.keys(aWindowsPrinter()));
    expect(fieldsBetween("$jobs = @(Get", "$faults['jobs']").sort()).toEqual(
      Object.keys(aWindowsJob(1)).sort(),
    );
    expect(fieldsBetween("$counters = @(Get", "$faults['counters']")).toEqual(["Name", "TotalPagesPrinted"]);
  });
  test("asks for each field that it writes", () => {
    for (const [name, fields] of [
      ["Win32_Printer", Object.keys(aWindowsPrinter())],
      ["Win32_PrintJob", Object.keys(aWindowsJob(1))],
      ["Win32_PerfFormattedData_Spooler_PrintQueue", ["Name", "TotalPagesPrinted"]],
    ] as const) {
      const asked = new RegExp(`SELECT ([\\w, ]+) FROM ${name}\\b`).exec(spoolerScript)?.[1]?.split(", ");
      expect(asked?.toSorted()).toEqual(fields.toSorted());
    }
  });
  test("keeps clear of what PowerShell 5.1 does to lists, dates, letters and the sum of all queues", () => {
    expect(spoolerScript).toContain("ConvertTo-Json -InputObject");
    expect(spoolerScript).not.toMatch(/\|\s*ConvertTo-Json/);
    expect(spoolerScript).toMatch(
      /printers = @\(\$printers\); jobs = @\(\$jobs\); counters = @\(\$counters\)/,
    );
    expect(spoolerScript).toContain(".ToUniversalTime().ToString('o')");
    expect(spoolerScript).toContain("[System.Text.UTF8Encoding]::new($false)");
    expect(spoolerScript).toContain("WHERE Name <> '_Total'");
  });
  test("is plain ASCII with as many brackets opened as closed", () => {
    expect(spoolerScript).toMatch(/^[\n\x20-\x7e]+$/);
    const count = (sign: string): number => spoolerScript.split(sign).length - 1;
    for (const [open, close] of ["{}", "()", "[]"]) expect(count(open ?? "")).toBe(count(close ?? ""));
  });
});
