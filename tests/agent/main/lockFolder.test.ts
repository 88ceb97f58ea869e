import { spawn } from "node:child_process";
import { once } from "node:events";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it, onTestFinished } from "vitest";
import { lockFolder } from "../../../agent/lockFolder.ts";
import { scratchFolder } from "../../support/scratchFolder.ts";

/** Another process that lives until the test has finished. */
function otherProcess(): number {
  const child = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"]);
  onTestFinished(() => void child.kill("SIGKILL"));
  return child.pid ?? 0;
}

async function goneProcess(): Promise<number> {
  const child = spawn(process.execPath, ["-e", ""]);
  await once(child, "exit");
  return child.pid ?? 0;
}

const lockOf = (folder: string) => join(folder, "agent.lock");

describe("lockFolder", () => {
  it("makes the folder, names this process in it and gives it free again", () => {
    const folder = join(scratchFolder(), "a", "b");
    const unlock = lockFolder(folder);
    expect(JSON.parse(readFileSync(lockOf(folder), "utf8"))).toMatchObject({ pid: process.pid });
    unlock();
    expect(existsSync(lockOf(folder))).toBe(false);
  });

  it("refuses a folder that another process has, and names the process", () => {
    const folder = scratchFolder();
    const pid = otherProcess();
    writeFileSync(lockOf(folder), JSON.stringify({ pid, startedTicks: null }));
    expect(() => lockFolder(folder)).toThrow(
      `Another agent (process ${pid}) is using the data folder ${folder}`,
    );
  });

  it("takes over the lock of a process that is gone", async () => {
    const folder = scratchFolder();
    writeFileSync(lockOf(folder), JSON.stringify({ pid: await goneProcess(), startedTicks: null }));
    lockFolder(folder)();
  });

  it.runIf(process.platform === "linux")(
    "takes over a lock whose number another process has got since",
    () => {
      const folder = scratchFolder();
      writeFileSync(lockOf(folder), JSON.stringify({ pid: otherProcess(), startedTicks: "1" }));
      lockFolder(folder)();
    },
  );

  it("takes over a lock that a power cut left empty", () => {
    const folder = scratchFolder();
    writeFileSync(lockOf(folder), "");
    lockFolder(folder)();
  });
});
