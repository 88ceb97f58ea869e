import { execFile } from "node:child_process";
import { win32 } from "node:path";
import { pollingSource } from "../../readings/pollingSource.ts";
import type { Source } from "../../readings/source.ts";
import type { MachineLook, RunProgram } from "./machineLooks.ts";
import { lookAtLinux, lookAtWindows } from "./machineLooks.ts";
import type { MachineSourceConfig } from "./machineSourceConfig.ts";

/** A program of Windows that takes longer hangs. */
const programMs = 8_000;

/** Four programs at most, one after the other. */
const lookMs = 4 * programMs + 2_000;

/**
 * How this computer is set for the night: a `machine` fact at the start and whenever it changes. Written against
 * documented interfaces; its Windows half was not run on Windows.
 */
export function machineSource(
  config: MachineSourceConfig,
  look: () => Promise<MachineLook> = () => lookHere(process.platform),
): Source {
  let told: MachineLook | null = null;
  let seen: MachineLook | null = null;
  return pollingSource({
    name: config.name,
    everyMs: config.everyMs,
    timeoutMs: lookMs,
    async read() {
      seen = await look();
      const isSame =
        told?.isUpdatePending === seen.isUpdatePending && told.sleepsAfterMin === seen.sleepsAfterMin;
      return { items: isSame ? [] : [{ item: { class: "fact", kind: "machine", ...seen } }] };
    },
    kept() {
      told = seen;
      return Promise.resolve();
    },
  });
}

/** Of other systems nothing is known. */
async function lookHere(platform: NodeJS.Platform): Promise<MachineLook> {
  if (platform === "win32") return await lookAtWindows(runOfWindows);
  if (platform === "linux") return await lookAtLinux("/");
  return { isUpdatePending: null, sleepsAfterMin: null };
}

/** Runs a program of Windows by its own folder, so that nobody else's of the same name is run. */
const runOfWindows: RunProgram = (file, args) => {
  const path = win32.join(process.env["SystemRoot"] ?? "C:\\Windows", "System32", file);
  return new Promise((resolve) => {
    execFile(path, [...args], { timeout: programMs, windowsHide: true }, (error, stdout) => {
      if (error === null) resolve({ code: 0, text: stdout });
      else resolve(typeof error.code === "number" ? { code: error.code, text: stdout } : null);
    });
  });
};
