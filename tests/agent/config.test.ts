import { describe, expect, it } from "vitest";
import { readConfig } from "../../agent/config.ts";

const read = (text: string) => readConfig("/etc/boothward/agent.yaml", text);

/** The lines of the mistake that reading this text ends in. */
function mistakes(text: string): string[] {
  try {
    read(text);
  } catch (error) {
    expect((error as Error).name).toBe("ConfigError");
    return (error as Error).message.split("\n");
  }
  return [];
}

describe("readConfig", () => {
  it("fills in what is left out", () => {
    expect(read("dataFolder: data")).toEqual({
      dataFolder: "/etc/boothward/data",
      outbox: { maxMb: 128, keepHours: 72, keepMb: 32 },
      log: { level: "info", maxMb: 10, keepFiles: 5 },
      sources: [],
    });
  });

  it("takes paths relative to the file's own folder, and absolute ones as they are", () => {
    const config = read(`
dataFolder: /var/lib/boothward
log: {file: logs/agent.log}
scenario: {file: ../day.ndjson, startedAtMs: 1781978400000}
sources:
  - {kind: folder, path: layouts}
`);
    expect(config.dataFolder).toBe("/var/lib/boothward");
    expect(config.log.file).toBe("/etc/boothward/logs/agent.log");
    expect(config.scenario).toEqual({
      file: "/etc/day.ndjson",
      startedAtMs: 1_781_978_400_000,
      wallErrorMs: 0,
    });
    expect(config.sources[0]).toMatchObject({ kind: "folder", path: "/etc/boothward/layouts" });
  });

  it("knows the six kinds of sources", () => {
    const config = read(`
dataFolder: data
dashboard: https://booths.example
sources:
  - {kind: ipp, uri: "ipp://localhost:631/printers/booth"}
  - {kind: spooler, name: strips, queue: Booth Strips}
  - {kind: folder, path: layouts}
  - {kind: hook}
  - {kind: host}
  - {kind: thermometers, sensors: {"w1:28-0316a2795f1e": inside}}
`);
    expect(config.sources.map((source) => source.kind)).toEqual([
      "ipp",
      "spooler",
      "folder",
      "hook",
      "host",
      "thermometers",
    ]);
  });

  it("names line, field and value of a wrong type", () => {
    const text = [
      "dataFolder: data",
      "sources:",
      "  - kind: folder",
      "    path: layouts",
      "  - kind: host",
      "    # how often",
      "    everyMs: fast",
    ].join("\n");
    expect(mistakes(text)).toEqual(['agent.yaml line 7, sources[1].everyMs: must be a number, got "fast"']);
  });

  it("names every mistake, in the order of the lines", () => {
    expect(mistakes("outbox:\n  maxMb: 0\nlog:\n  level: loud\n")).toEqual([
      "agent.yaml line 1, dataFolder: is missing; it must be text",
      "agent.yaml line 2, outbox.maxMb: must be at least 1, got 0",
      'agent.yaml line 4, log.level: must be debug, info, warn or error, got "loud"',
    ]);
  });

  it.each([
    ["dashbord: https://a.example", "line 2, dashbord: is not a known field; did you mean dashboard?"],
    ["outbox: {maxmb: 5}", "line 2, outbox.maxmb: is not a known field; did you mean maxMb?"],
    [
      "sources: [{kind: host, evryMs: 5000}]",
      "line 2, sources[0].evryMs: is not a known field; did you mean everyMs?",
    ],
    ["colour: red", "line 2, colour: is not a known field"],
    [
      "sources: [{kind: ip}]",
      'line 2, sources[0].kind: must be ipp, spooler, folder, hook, host, thermometers, peers or machine, got "ip"',
    ],
    [
      "dashboard: ftp://a.example",
      'line 2, dashboard: must be an http or https address, got "ftp://a.example"',
    ],
    ["dashboard:", "line 2, dashboard: must be text, got null"],
    ["log: {keepFiles: 1.5}", "line 2, log.keepFiles: must be a whole number, got 1.5"],
    ["scenario: {file: day.ndjson}", "line 2, scenario.startedAtMs: is missing; it must be a number"],
    ["sources: [{kind: spooler}]", "line 2, sources[0].queue: is missing; it must be text"],
    [
      "sources: [{kind: spooler, queue: Booth, everyMs: 5000, silentMs: 9000}]",
      "line 2, sources[0].silentMs: must be more than twice everyMs, got 9000",
    ],
    ["sources: [{kind: hook, port: 84650}]", "line 2, sources[0].port: must be at most 65535, got 84650"],
    [
      "sources: [{kind: hook, token: short}]",
      'line 2, sources[0].token: must be 8 to 200 letters, digits, dots, dashes or _ ~, got "short"',
    ],
    [
      "sources: [{kind: hook, tokn: open-the-booth}]",
      "line 2, sources[0].tokn: is not a known field; did you mean token?",
    ],
    [
      "sources: [{kind: host}, {kind: host}]",
      'line 2, sources[1]: another source is called "host" already: give this one a name of its own',
    ],
  ])("refuses %s", (line, mistake) => {
    expect(mistakes(`dataFolder: data\n${line}\n`)).toEqual([`agent.yaml ${mistake}`]);
  });

  it.each([
    ["", "agent.yaml line 1, (the file): is empty"],
    ["- a", 'agent.yaml line 1, (the file): must be a group of fields, got ["a"]'],
  ])("refuses a file that is no group of fields: %j", (text, mistake) => {
    expect(mistakes(text)).toEqual([mistake]);
  });

  it("names the line at which a file is not YAML", () => {
    const [mistake] = mistakes("dataFolder: data\nlog: {level: info\nsources: []\n");
    expect(mistake).toMatch(/^agent\.yaml line [23]: not YAML: /);
  });
});
