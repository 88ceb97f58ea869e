import { describe, expect, onTestFinished, test } from "vitest";
import {
  devicesScript,
  readDevicesLine,
  usbNumber,
  windowsDevices,
} from "../../../../agent/sources/peers/windowsDevices.ts";
import { aFakeSpooler } from "../../../support/aFakeSpooler.ts";
import { aHandClock } from "../../../support/aHandClock.ts";
import { until } from "../../../support/until.ts";

/** The script itself is not run here: there is no Windows PowerShell on the machines that run these tests. */
const camera = { FriendlyName: "Maker Camera", InstanceId: "USB\\VID_1209&PID_0001\\5&2A" };
const line = (devices: unknown, fault: string | null = null) =>
  `${JSON.stringify({ version: 1, devices, fault })}\r\n`;

async function aChild() {
  const fake = await aFakeSpooler();
  const devices = windowsDevices(10_000, aHandClock().clock, fake.command);
  onTestFinished(() => devices.close());
  await fake.started(1);
  return { fake, devices };
}

describe("devices of Windows", () => {
  test("are those of the last line, each by number, name and id", async () => {
    const { fake, devices } = await aChild();
    await expect(devices.list()).rejects.toThrow("has not listed its devices yet");
    fake.write(line([camera]));
    await until(async () => (await devices.list()).length === 1, "the line was taken");
    expect(await devices.list()).toEqual(["1209:0001 Maker Camera USB\\VID_1209&PID_0001\\5&2A"]);
    fake.write(line([]));
    await until(async () => (await devices.list()).length === 0, "the next line was taken");
  });

  test("are not known when Windows cannot list them, or PowerShell has ended", async () => {
    const { fake, devices } = await aChild();
    fake.write(line([], "access denied"));
    await until(
      () =>
        devices.list().then(
          () => false,
          (error: Error) => error.message.includes("access denied"),
        ),
      "the fault was taken",
    );
    fake.end(3, "something broke");
    await until(
      () =>
        devices.list().then(
          () => false,
          (error: Error) => error.message.includes("something broke"),
        ),
      "its end was seen",
    );
  });
});

test("a list of one may come as a bare object, an empty one as nothing (PowerShell 5.1)", () => {
  expect(readDevicesLine(line(camera))?.devices).toEqual([camera]);
  expect(readDevicesLine(line(null))?.devices).toEqual([]);
  expect(readDevicesLine("not JSON")).toBeNull();
  expect(readDevicesLine(JSON.stringify({ version: 2, devices: [] }))).toBeNull();
});

test("a number is read from an instance id, where it has one", () => {
  expect(usbNumber("USB\\VID_1209&PID_0001\\5&2A")).toBe("1209:0001");
  expect(usbNumber("SWD\\WPDBUSENUM\\{1}")).toBeNull();
});

describe("the script", () => {
  test("writes the fields that are read", () => {
    for (const field of ["FriendlyName", "InstanceId"])
      expect(devicesScript).toContain(`${field} = $_.${field}`);
    expect(devicesScript).toContain("version = 1; devices = @($devices); fault = $fault");
  });
  test("is plain ASCII with as many brackets opened as closed", () => {
    expect(devicesScript).toMatch(/^[\n\x20-\x7e]+$/);
    const count = (sign: string): number => devicesScript.split(sign).length - 1;
    for (const [open, close] of ["{}", "()", "[]"]) expect(count(open ?? "")).toBe(count(close ?? ""));
  });
});
