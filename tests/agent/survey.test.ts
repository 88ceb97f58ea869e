import { once } from "node:events";
import { mkdir, utimes, writeFile } from "node:fs/promises";
import { createServer } from "node:net";
import type { AddressInfo } from "node:net";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { parse } from "yaml";
import * as z from "zod";
import { sourceConfig } from "../../agent/config.ts";
import { listPrinters } from "../../agent/sources/spooler/listPrinters.ts";
import { lookAround, survey } from "../../agent/survey.ts";
import type { Places } from "../../agent/survey.ts";
import { aFakeSpooler } from "../support/aFakeSpooler.ts";
import { aSpoolerLine, aWindowsPrinter } from "../support/aSpoolerLine.ts";
import { cupsBench } from "../support/cupsBench.ts";
import { freePort } from "../support/freePort.ts";
import { needsTool } from "../support/needsTool.ts";
import { until } from "../support/until.ts";
import { tempFolder } from "../support/watchSource.ts";

let temp: Awaited<ReturnType<typeof tempFolder>>;
beforeEach(async () => {
  temp = await tempFolder();
});
afterEach(() => temp.remove());

/** A computer on which nothing can be seen. */
async function bareComputer(): Promise<Places> {
  return {
    printServer: `ipp://127.0.0.1:${await freePort()}/`,
    windowsPrinters: null,
    hookPort: await freePort(),
    pictureRoots: [join(temp.path, "Pictures")],
    sysRoot: join(temp.path, "sys"),
    power: () => Promise.resolve(null),
    gateway: () => Promise.resolve(null),
  };
}

async function put(path: string, bytes: string | Buffer): Promise<void> {
  await mkdir(dirname(join(temp.path, path)), { recursive: true });
  await writeFile(join(temp.path, path), bytes);
}

test("a bare computer gets a sentence for each thing that is missing, and what to do", async () => {
  const computer = await bareComputer();
  const findings = await lookAround(computer);
  expect(findings.map(({ matter, found }) => [matter, found])).toEqual([
    ["queue", null],
    ["folder", null],
    ["hook", `http://127.0.0.1:${computer.hookPort}/session/finished`],
    ["thermometer", null],
    ["power", null],
    ["peers", null],
    ["machine", "machine"],
  ]);
  expect(findings.map(({ sentence }) => sentence)).toEqual([
    expect.stringMatching(/^No print server answers at .*: install CUPS and add the booth's printer, or/),
    expect.stringMatching(/^No folder with pictures was found under .*: give the folder/),
    expect.stringMatching(/^If the booth program can open an address when guests finish, add "kind: hook"/),
    expect.stringMatching(/^No thermometer was found: plug/),
    expect.stringMatching(/^This computer does not say what feeds it/),
    expect.stringMatching(/^No router was found: with "kind: peers"/),
    expect.stringMatching(/^Whether an update waits, or sleep is on/),
  ]);
});

test("folders with pictures, the latest first; thermometers; what feeds it", async () => {
  await put("Pictures/holiday/1.jpg", Buffer.alloc(100));
  await utimes(join(temp.path, "Pictures/holiday/1.jpg"), new Date(0), new Date(0));
  await put("Pictures/event/prints/1.jpg", Buffer.alloc(100));
  await put("Pictures/event/prints/2.jpg", Buffer.alloc(100));
  await put("sys/class/thermal/thermal_zone0/type", "acpitz\n");
  await put("sys/class/thermal/thermal_zone0/temp", "41500\n");
  await put("sys/bus/w1/devices/28-0316a2795f1e/w1_slave", "0 : crc=1e YES\n0 t=22062\n");
  const power = (): ReturnType<Places["power"]> => Promise.resolve({ isOnMains: false, batteryPct: 64 });
  const findings = await lookAround({ ...(await bareComputer()), power });
  const seen = findings.filter(({ matter }) => !["queue", "hook"].includes(matter));
  expect(seen.map(({ sentence }) => sentence)).toEqual([
    expect.stringMatching(
      /^The folder .*event\/prints holds 2 pictures, the newest of .* UTC: is it the one/,
    ),
    expect.stringMatching(/^The folder .*holiday holds 1 picture, /),
    "The thermometer thermal:acpitz says 41.5 °C.",
    "The thermometer w1:28-0316a2795f1e says 22.1 °C.",
    "This computer runs on its battery, its battery at 64 %.",
    expect.stringMatching(/^No router was found/),
    expect.stringMatching(/^Whether an update waits/),
  ]);
});

describe("the settings it proposes", () => {
  async function proposed(places: Places): Promise<z.infer<typeof sourceConfig>[]> {
    const text = await survey(places);
    const yaml: unknown = parse(text.slice(text.indexOf("sources:")));
    return z.object({ sources: z.array(sourceConfig) }).parse(yaml).sources;
  }
  test("are settings the agent takes", async () => {
    await put("Pictures/a: b/1.jpg", Buffer.alloc(100));
    await put("sys/class/thermal/thermal_zone0/type", "acpitz\n");
    await put("sys/bus/w1/devices/28-0316a2795f1e/w1_slave", "0 : crc=1e YES\n0 t=22062\n");
    const sources = await proposed(await bareComputer());
    expect(sources).toMatchObject([
      { kind: "folder", path: join(temp.path, "Pictures/a: b") },
      { kind: "thermometers", sensors: { "w1:28-0316a2795f1e": "inside" } },
      { kind: "host" },
      { kind: "machine" },
    ]);
    const gateway = (): ReturnType<Places["gateway"]> => Promise.resolve("192.168.8.1");
    expect(await proposed({ ...(await bareComputer()), gateway })).toContainEqual(
      expect.objectContaining({ kind: "peers", peers: [{ part: "router", tcp: "192.168.8.1:80" }] }),
    );
  });
});

test("a port that is in use is said, and whose it may be", async () => {
  const server = createServer().listen(0, "127.0.0.1");
  await once(server, "listening");
  const { port: hookPort } = server.address() as AddressInfo;
  const findings = await lookAround({ ...(await bareComputer()), hookPort });
  server.close();
  expect(findings.find(({ matter }) => matter === "hook")).toMatchObject({
    found: null,
    sentence: expect.stringContaining(
      `Port ${hookPort}, where a booth program would call, is in use`,
    ) as string,
  });
});

describe("on Windows", () => {
  test("the spooler is asked for its printers, and settings for each are proposed", async () => {
    const fake = await aFakeSpooler();
    const windowsPrinters = (): ReturnType<typeof listPrinters> => listPrinters(fake.command);
    const looking = survey({ ...(await bareComputer()), windowsPrinters });
    await fake.started(1);
    const left = aWindowsPrinter({ Name: 'Booth "left"' });
    const right = aWindowsPrinter({ Name: "Booth right", PrinterStatus: 2, DetectedErrorState: 0 });
    fake.write(aSpoolerLine({ printers: [left, right] }));
    const text = await looking;
    expect(text).toContain('+ The printer "Booth \\"left\\"" is idle.');
    expect(text).toContain('+ The printer "Booth right" is there, but Windows does not say how it is.');
    const yaml: unknown = parse(text.slice(text.indexOf("sources:")));
    expect(z.object({ sources: z.array(sourceConfig) }).parse(yaml).sources).toMatchObject([
      { kind: "spooler", queue: 'Booth "left"' },
      { kind: "spooler", queue: "Booth right" },
      { kind: "host" },
      { kind: "machine" },
    ]);
    await until(() => !fake.isAlive(), "the child is gone");
  });
  test("a PowerShell that ends says why there is no list", async () => {
    const fake = await aFakeSpooler();
    const windowsPrinters = (): ReturnType<typeof listPrinters> => listPrinters(fake.command);
    const looking = lookAround({ ...(await bareComputer()), windowsPrinters });
    await fake.started(1);
    fake.end(1, "not allowed here");
    expect((await looking)[0]).toMatchObject({
      matter: "queue",
      found: null,
      sentence: expect.stringMatching(/^Windows does not show its printers: .*not allowed here$/) as string,
    });
  });
});

needsTool("cupsd", "apt-get install cups cups-client")("a print server", () => {
  test("is asked for its queues, and says so when it has none", async () => {
    const bench = await cupsBench();
    try {
      const places = { ...(await bareComputer()), printServer: `ipp://127.0.0.1:${bench.port}/` };
      const [queue] = await lookAround(places);
      expect(queue).toMatchObject({ matter: "queue", sentence: 'The print queue "booth" is idle.' });
      expect(queue?.found).toMatch(/\/printers\/booth$/);
      await bench.cups("lpadmin", "-x", "booth");
      const [none] = await lookAround(places);
      expect(none).toMatchObject({
        found: null,
        sentence: expect.stringContaining("has no queue") as string,
      });
    } finally {
      await bench.close();
    }
  });
});
