import { mkdir, rm, writeFile } from "node:fs/promises";
import { dirname, join } from "node:path";
import { describe, expect, onTestFinished, test } from "vitest";
import type { MachineLook, RunProgram } from "../../../../agent/sources/machine/machineLooks.ts";
import {
  lookAtLinux,
  lookAtWindows,
  sleepsAfterMin,
} from "../../../../agent/sources/machine/machineLooks.ts";
import { machineSource } from "../../../../agent/sources/machine/machineSource.ts";
import { machineSourceConfig } from "../../../../agent/sources/machine/machineSourceConfig.ts";
import { scratchFolder } from "../../../support/scratchFolder.ts";
import { until } from "../../../support/until.ts";
import { watchSource } from "../../../support/watchSource.ts";

/** What powercfg /query writes of one setting, after Microsoft's documentation; the words are of the language. */
const english = `
Power Scheme GUID: 381b4222-f694-41f0-9685-ff5bb260df2e  (Balanced)
  Subgroup GUID: 238c9fa8-0aad-41ed-83f4-97be242c8f20  (Sleep)
    Power Setting GUID: 29f6c1db-86da-48c5-9fdb-f2b67b1f44da  (Sleep after)
      Minimum Possible Setting: 0x00000000
      Maximum Possible Setting: 0xffffffff
      Possible Settings increment: 0x00000001
      Possible Settings units: Seconds
    Current AC Power Setting Index: 0x00000708
    Current DC Power Setting Index: 0x00000384
`;
const german = english
  .replace("Current AC Power Setting Index", "Index der aktuellen Wechselstromeinstellung")
  .replace("Current DC Power Setting Index", "Index der aktuellen Gleichstromeinstellung");

describe("when it sleeps", () => {
  test("is the setting on mains, whatever the language: 0x708 seconds are half an hour", () => {
    expect(sleepsAfterMin(english)).toBe(30);
    expect(sleepsAfterMin(german)).toBe(30);
    expect(sleepsAfterMin(english.replace("0x00000708", "0x00000000"))).toBe(0);
  });
  test("is not known from anything else", () => {
    expect(sleepsAfterMin("")).toBeNull();
    expect(sleepsAfterMin("The power scheme does not exist.")).toBeNull();
  });
});

describe("Windows", () => {
  const version = "HKLM\\SOFTWARE\\Microsoft\\Windows\\CurrentVersion";
  const windows =
    (keys: readonly string[], sleep: { code: number; text: string } | null): RunProgram =>
    (file, [, key = ""]) =>
      Promise.resolve(file === "powercfg.exe" ? sleep : { code: keys.includes(key) ? 0 : 1, text: "" });

  test("waits for a restart when either key is there", async () => {
    const restart = `${version}\\WindowsUpdate\\Auto Update\\RebootRequired`;
    const pending = `${version}\\Component Based Servicing\\RebootPending`;
    const sleep = { code: 0, text: english };
    for (const key of [restart, pending])
      expect(await lookAtWindows(windows([version, key], sleep))).toEqual({
        ...{ isUpdatePending: true, sleepsAfterMin: 30 },
      });
    expect(await lookAtWindows(windows([version], sleep))).toMatchObject({ isUpdatePending: false });
  });
  test("is not known where no key can be read, and no program run", async () => {
    expect(await lookAtWindows(windows([], { code: 1, text: "" }))).toEqual({
      ...{ isUpdatePending: null, sleepsAfterMin: null },
    });
    expect(await lookAtWindows(() => Promise.resolve(null))).toEqual({
      isUpdatePending: null,
      sleepsAfterMin: null,
    });
  });
});

describe("Linux", () => {
  test("says by a file that a restart is wanted, where something writes it", async () => {
    const root = scratchFolder();
    const put = async (path: string) => {
      await mkdir(dirname(join(root, path)), { recursive: true });
      await writeFile(join(root, path), "");
    };
    expect(await lookAtLinux(root)).toEqual({ isUpdatePending: null, sleepsAfterMin: null });
    await put("usr/share/unattended-upgrades/20auto-upgrades");
    expect(await lookAtLinux(root)).toMatchObject({ isUpdatePending: false });
    await put("var/run/reboot-required");
    expect(await lookAtLinux(root)).toMatchObject({ isUpdatePending: true });
    await rm(join(root, "usr"), { recursive: true });
    expect(await lookAtLinux(root)).toMatchObject({ isUpdatePending: true });
  });
});

test("the fact is told at the start and when it changes, and a failed look is a fault", async () => {
  let next: MachineLook | Error = { isUpdatePending: true, sleepsAfterMin: 15 };
  let looks = 0;
  const look = () => {
    looks += 1;
    return next instanceof Error ? Promise.reject(next) : Promise.resolve(next);
  };
  const config = { ...machineSourceConfig.parse({ kind: "machine" }), everyMs: 5 };
  const watched = await watchSource(machineSource(config, look));
  onTestFinished(() => watched.close());
  await until(() => looks > 3, "four looks");
  next = { isUpdatePending: false, sleepsAfterMin: 15 };
  await until(() => watched.items("machine").length === 2, "the change was told");
  next = new Error("no answer");
  await until(() => watched.fault() === "unreadable", "the fault was told");
  expect(watched.items("machine")).toEqual([
    { class: "fact", kind: "machine", isUpdatePending: true, sleepsAfterMin: 15 },
    { class: "fact", kind: "machine", isUpdatePending: false, sleepsAfterMin: 15 },
  ]);
});
