import { mkdir, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import type { ThermometerReading } from "../../../agent/sources/thermometers.ts";
import { findThermometers, parseOneWire } from "../../../agent/sources/thermometers.ts";
import { thermometersSource } from "../../../agent/sources/thermometersSource.ts";
import { thermometersSourceConfig } from "../../../agent/sources/thermometersSourceConfig.ts";
import { aHandClock } from "../../support/aHandClock.ts";
import { until } from "../../support/until.ts";
import type { WatchedSource } from "../../support/watchSource.ts";
import { tempFolder, watchSource } from "../../support/watchSource.ts";

/** Trees as the kernel makes them: its documents hwmon/sysfs-interface, w1/slaves/w1_therm, ABI sysfs-bus-iio. */
let root: Awaited<ReturnType<typeof tempFolder>>;
beforeEach(async () => {
  root = await tempFolder();
});
afterEach(() => root.remove());

async function put(path: string, text: string): Promise<void> {
  await mkdir(dirname(join(root.path, path)), { recursive: true });
  await writeFile(join(root.path, path), `${text}\n`);
}

async function readAll(): Promise<Record<string, ThermometerReading>> {
  const readings: Record<string, ThermometerReading> = {};
  for (const each of await findThermometers(root.path)) readings[each.key] = await each.read();
  return readings;
}

// The two lines of the driver's document w1_therm, with its own example of 22.062 degrees ("t=22062").
const oneWire = (milliC: number, check = "YES"): string =>
  `5a 01 4b 46 7f ff 06 10 1e : crc=1e ${check}\n5a 01 4b 46 7f ff 06 10 1e t=${milliC}`;

describe("what is found", () => {
  test("hwmon sensors by chip and label, whatever their number", async () => {
    await put("class/hwmon/hwmon3/name", "coretemp");
    await put("class/hwmon/hwmon3/temp1_input", "54000");
    await put("class/hwmon/hwmon3/temp1_label", "Package id 0");
    await put("class/hwmon/hwmon3/temp2_input", "51500");
    await put("class/hwmon/hwmon3/fan1_input", "2100");
    expect(await readAll()).toEqual({
      "hwmon:coretemp/Package id 0": { celsius: 54, humidityPct: null },
      "hwmon:coretemp/temp2": { celsius: 51.5, humidityPct: null },
    });
  });
  test("two chips of one name are told apart", async () => {
    await put("class/hwmon/hwmon2/name", "nvme");
    await put("class/hwmon/hwmon2/temp1_input", "40000");
    await put("class/hwmon/hwmon10/name", "nvme");
    await put("class/hwmon/hwmon10/temp1_input", "41000");
    expect(Object.keys(await readAll())).toEqual(["hwmon:nvme/temp1", "hwmon:nvme/temp1#2"]);
  });
  test("thermal zones, also below freezing", async () => {
    await put("class/thermal/thermal_zone0/type", "acpitz");
    await put("class/thermal/thermal_zone0/temp", "-2500");
    await put("class/thermal/cooling_device0/type", "Fan");
    expect(await readAll()).toEqual({ "thermal:acpitz": { celsius: -2.5, humidityPct: null } });
  });
  test("1-Wire thermometers, and no other 1-Wire parts", async () => {
    await put("bus/w1/devices/28-0316a2795f1e/w1_slave", oneWire(22_062));
    await put("bus/w1/devices/w1_bus_master1/w1_master_name", "w1_bus_master1");
    expect(await readAll()).toEqual({ "w1:28-0316a2795f1e": { celsius: 22.062, humidityPct: null } });
  });
  test("an iio sensor that computes for itself, with humidity", async () => {
    await put("bus/iio/devices/iio:device0/name", "humid0");
    await put("bus/iio/devices/iio:device0/in_temp_input", "31200");
    await put("bus/iio/devices/iio:device0/in_humidityrelative_input", "48500");
    expect(await readAll()).toEqual({ "iio:humid0": { celsius: 31.2, humidityPct: 48.5 } });
  });
  test("an iio sensor that gives raw steps: (raw + offset) x scale", async () => {
    await put("bus/iio/devices/iio:device1/name", "raw0");
    await put("bus/iio/devices/iio:device1/in_temp_raw", "27300");
    await put("bus/iio/devices/iio:device1/in_temp_offset", "-1200");
    await put("bus/iio/devices/iio:device1/in_temp_scale", "1.5");
    await put("bus/iio/devices/iio:device2/name", "light0");
    await put("bus/iio/devices/iio:device2/in_illuminance_raw", "9");
    expect(await readAll()).toEqual({ "iio:raw0": { celsius: 39.15, humidityPct: null } });
  });
  test("nothing on a computer without any", async () => {
    expect(await findThermometers(join(root.path, "none"))).toEqual([]);
  });
});

describe("a 1-Wire answer", () => {
  test.each([
    [oneWire(22_062), { celsius: 22.062 }],
    [oneWire(-10_125), { celsius: -10.125 }],
    [oneWire(22_062, "NO"), { detail: "the checksum is wrong" }],
    [oneWire(85_000), { detail: "85 °C is what it says before it has measured" }],
    [oneWire(84_937), { celsius: 84.937 }],
    ["5a : crc=1e YES\n5a", { detail: "it gives no number" }],
    ["", { detail: "the checksum is wrong" }],
  ])("%j", (text, reading) => {
    expect(parseOneWire(text)).toMatchObject(reading);
  });
});

describe("the source", () => {
  const hand = aHandClock();
  let watched: WatchedSource;
  const probe = "bus/w1/devices/28-0316a2795f1e/w1_slave";

  beforeEach(async () => {
    await put(probe, oneWire(30_000));
    await put("bus/iio/devices/iio:device0/name", "humid0");
    await put("bus/iio/devices/iio:device0/in_temp_input", "21000");
    const config = thermometersSourceConfig.parse({
      kind: "thermometers",
      everyMs: 500,
      root: root.path,
      sensors: { "w1:28-0316a2795f1e": "inside", "iio:humid0": "outside" },
    });
    const quick = { ...config, everyMs: 20 };
    watched = await watchSource(thermometersSource(quick, { clock: hand.clock, stateFolder: root.path }));
    await aLook();
  });
  afterEach(() => watched.close());

  async function aLook(): Promise<void> {
    const before = watched.answers.length;
    await until(() => watched.answers.length >= before + 2, "another look is done");
  }
  const faults = () =>
    watched
      .sourceItems("sourceState")
      .map(({ source, item }) => [source, "fault" in item ? item.fault : undefined]);

  test("gives each sensor to its place, under a name of its own", () => {
    expect(watched.items("inside")).toEqual([
      { class: "reading", kind: "inside", sensor: "w1:28-0316a2795f1e", insideC: 30, humidityPct: null },
    ]);
    expect(watched.items("outside")).toEqual([
      { class: "reading", kind: "outside", sensor: "iio:humid0", outsideC: 21 },
    ]);
    expect(watched.sourceItems("inside")[0]?.source).toBe("thermometer w1:28-0316a2795f1e");
  });
  test("tells a change of 0.1 degrees, not one of 0.09", async () => {
    await put(probe, oneWire(30_090));
    await aLook();
    expect(watched.items("inside")).toHaveLength(1);
    await put(probe, oneWire(30_100));
    await aLook();
    expect(watched.items("inside").map((reading) => reading.insideC)).toEqual([30, 30.1]);
  });
  test("tells an unchanged temperature once a minute", async () => {
    hand.pass(59_000);
    await aLook();
    expect(watched.items("inside")).toHaveLength(1);
    hand.pass(1_000);
    await aLook();
    expect(watched.items("inside")).toHaveLength(2);
  });
  test("a sensor that is pulled out is missing, is read again when it is back, and the other goes on", async () => {
    await rm(join(root.path, dirname(probe)), { recursive: true });
    await aLook();
    await put("bus/iio/devices/iio:device0/in_temp_input", "22000");
    await aLook();
    expect(watched.items("outside").map((reading) => reading.outsideC)).toEqual([21, 22]);
    await put(probe, oneWire(30_000));
    await aLook();
    expect(faults()).toEqual([
      ["thermometer w1:28-0316a2795f1e", null],
      ["thermometer iio:humid0", null],
      ["thermometer w1:28-0316a2795f1e", "missing"],
      ["thermometer w1:28-0316a2795f1e", null],
    ]);
    expect(watched.items("inside").map((reading) => reading.insideC)).toEqual([30, 30]);
  });
  test("spoilt answers are no readings, and many in a row are a fault", async () => {
    await put(probe, oneWire(61_000, "NO"));
    await until(() => faults().some(([, fault]) => fault === "unreadable"), "the fault is told");
    await put(probe, oneWire(31_000));
    await aLook();
    expect(watched.items("inside").map((reading) => reading.insideC)).toEqual([30, 31]);
  });
  test("a temperature no place on earth has is no reading", async () => {
    await put("bus/iio/devices/iio:device0/in_temp_input", "127000");
    await until(() => faults().some(([, fault]) => fault === "unreadable"), "the fault is told");
    expect(watched.items("outside")).toHaveLength(1);
  });
});
