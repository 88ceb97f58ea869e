import { mkdir, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { hostReading } from "@boothward/shared-types";
import type { HostSensors } from "../../../agent/sources/hostSensors.ts";
import { hostSensors, hottestProcessor } from "../../../agent/sources/hostSensors.ts";
import { hostSource } from "../../../agent/sources/hostSource.ts";
import { hostSourceConfig } from "../../../agent/sources/hostSourceConfig.ts";
import type { PowerSeen } from "../../../agent/sources/powerSupplies.ts";
import { readPowerSupplies } from "../../../agent/sources/powerSupplies.ts";
import { aHandClock } from "../../support/aHandClock.ts";
import { until } from "../../support/until.ts";
import type { WatchedSource } from "../../support/watchSource.ts";
import { realClock, tempFolder, watchSource } from "../../support/watchSource.ts";

let temp: Awaited<ReturnType<typeof tempFolder>>;
beforeEach(async () => {
  temp = await tempFolder();
});
afterEach(() => temp.remove());

async function put(path: string, text: string): Promise<void> {
  await mkdir(dirname(join(temp.path, path)), { recursive: true });
  await writeFile(join(temp.path, path), `${text}\n`);
}

describe("power supplies, by the kernel's ABI sysfs-class-power", () => {
  async function putSupply(name: string, fields: Record<string, string>): Promise<void> {
    for (const [field, text] of Object.entries(fields))
      await put(`class/power_supply/${name}/${field}`, text);
  }
  test("a computer without battery and mains sensor says nothing", async () => {
    expect(await readPowerSupplies(temp.path)).toBeNull();
  });
  test("a laptop on mains, and with the plug pulled", async () => {
    await putSupply("AC", { type: "Mains", online: "1" });
    await putSupply("BAT0", { type: "Battery", capacity: "87", status: "Charging" });
    expect(await readPowerSupplies(temp.path)).toEqual({ isOnMains: true, batteryPct: 87 });
    await putSupply("AC", { online: "0" });
    expect(await readPowerSupplies(temp.path)).toEqual({ isOnMains: false, batteryPct: 87 });
  });
  test("a tablet whose battery alone says whether it is discharged", async () => {
    await putSupply("BATC", { type: "Battery", capacity: "40", status: "Discharging" });
    expect(await readPowerSupplies(temp.path)).toEqual({ isOnMains: false, batteryPct: 40 });
    await putSupply("BATC", { status: "Full" });
    expect(await readPowerSupplies(temp.path)).toEqual({ isOnMains: true, batteryPct: 40 });
  });
  test("one feed of two is enough", async () => {
    await putSupply("AC", { type: "Mains", online: "0" });
    await putSupply("ucsi", { type: "USB", online: "1" });
    expect(await readPowerSupplies(temp.path)).toEqual({ isOnMains: true, batteryPct: null });
  });
  test("the battery of a mouse is not this computer's", async () => {
    await putSupply("mouse", { type: "Battery", scope: "Device", capacity: "5", status: "Discharging" });
    expect(await readPowerSupplies(temp.path)).toBeNull();
  });
});

test("the hottest of the processor's own sensors is its temperature", async () => {
  await put("class/hwmon/hwmon0/name", "nvme");
  await put("class/hwmon/hwmon0/temp1_input", "70000");
  expect(await hottestProcessor(temp.path)).toBeNull();
  await put("class/hwmon/hwmon1/name", "coretemp");
  await put("class/hwmon/hwmon1/temp1_input", "52000");
  await put("class/hwmon/hwmon1/temp2_input", "55000");
  expect(await hottestProcessor(temp.path)).toBe(55);
});

test("this very computer gives a reading that the wire takes", async () => {
  const config = hostSourceConfig.parse({ kind: "host" });
  const watched = await watchSource(hostSource(config, { clock: realClock, stateFolder: temp.path }));
  await until(() => watched.items("host").length > 0, "the computer is read");
  await watched.close();
  const [reading] = watched.items("host");
  const stamped = { ...reading, seq: 1, atMs: 0, monoMs: 0, source: "host" };
  expect(hostReading.safeParse(stamped).error).toBeUndefined();
  expect(reading?.memoryUsedPct).toBeGreaterThan(0);
  expect(reading?.diskFreeMb).toBeGreaterThan(0);
});

test("the load is that between two looks", async () => {
  const sensors = hostSensors("linux", temp.path);
  expect(sensors.loadPct()).toBeNull();
  await until(() => {
    const load = sensors.loadPct();
    return load !== null && load >= 0 && load <= 100;
  }, "a second look has a load");
});

describe("the source", () => {
  const hand = aHandClock();
  let watched: WatchedSource;
  let power: PowerSeen | null;
  let processorC: number | null;

  /** Sensors as a computer might have them. */
  const sensors: HostSensors = {
    memoryUsedPct: () => Promise.resolve(40),
    loadPct: () => 12,
    processorC: () =>
      processorC === null ? Promise.reject(new Error("no sensor")) : Promise.resolve(processorC),
    diskFreeMb: () => Promise.resolve(50_000),
    networkUp: () => true,
    power: () => Promise.resolve(power),
    close: () => undefined,
  };

  async function watchHost(): Promise<void> {
    // A millisecond of the hand's clock is a look, so that every look asks every sensor.
    const config = {
      ...hostSourceConfig.parse({ kind: "host" }),
      everyMs: 20,
      powerEveryMs: 20,
      diskEveryMs: 20,
    };
    watched = await watchSource(hostSource(config, { clock: hand.clock, stateFolder: temp.path }, sensors));
    await aLook();
  }
  async function aLook(): Promise<void> {
    const before = watched.answers.length;
    hand.pass(20);
    await until(() => watched.answers.length >= before + 2, "another look is done");
  }
  beforeEach(() => {
    power = { isOnMains: true, batteryPct: 90 };
    processorC = 50;
  });
  afterEach(() => watched.close());

  test("says what feeds it at the start, when the plug is pulled and when it is back", async () => {
    await watchHost();
    power = { isOnMains: false, batteryPct: 90 };
    await aLook();
    power = { isOnMains: true, batteryPct: 89 };
    await aLook();
    expect(watched.items("power").map((fact) => fact.isOnMains)).toEqual([true, false, true]);
  });
  test("says nothing of power where nothing is known of it", async () => {
    power = null;
    await watchHost();
    await aLook();
    expect(watched.items("power")).toEqual([]);
    expect(watched.items("host")[0]?.batteryPct).toBeNull();
  });
  test("tells its state once a minute and on a large change", async () => {
    await watchHost();
    processorC = 54;
    await aLook();
    expect(watched.items("host")).toHaveLength(1);
    processorC = 56;
    await aLook();
    expect(watched.items("host").map((reading) => reading.processorC)).toEqual([50, 56]);
    hand.pass(60_000);
    await aLook();
    expect(watched.items("host")).toHaveLength(3);
  });
  test("a sensor that fails is unknown, and the rest is told", async () => {
    processorC = null;
    await watchHost();
    expect(watched.items("host")).toMatchObject([{ processorC: null, memoryUsedPct: 40 }]);
    expect(watched.fault()).toBeNull();
  });
});
