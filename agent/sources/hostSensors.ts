import { statfs } from "node:fs/promises";
import { cpus, networkInterfaces } from "node:os";
import type * as SystemInformation from "systeminformation";
import type { PowerSeen } from "./powerSupplies.ts";
import { readPowerSupplies } from "./powerSupplies.ts";
import { findThermometers } from "./thermometers.ts";

/** Ways to look at this computer. Each gives null where there is no sensor, and may reject. */
export type HostSensors = {
  memoryUsedPct(): Promise<number | null>;
  /** Share of the time since the last call in which the processors worked; null at the first. */
  loadPct(): number | null;
  processorC(): Promise<number | null>;
  diskFreeMb(): Promise<number | null>;
  networkUp(): boolean | null;
  power(): Promise<PowerSeen | null>;
  close(): void;
};

/** Sensors that are the processor's own. **Source:** names of Linux drivers, seen and from memory. */
const processorSensors = [
  /^hwmon:(coretemp|k10temp|zenpower|cpu_thermal|soc_thermal)\//,
  /^thermal:(x86_pkg_temp|cpu[-_]?thermal|soc[-_]?thermal)/i,
];

/**
 * The sensors of the computer this runs on. On Linux the kernel's files are read; elsewhere the
 * systeminformation package asks for temperature and battery, on Windows through one PowerShell that stays.
 *
 * Its calls that start child processes each time are left alone: they would cost more than all the rest of
 * the agent.
 */
export function hostSensors(platform: NodeJS.Platform, diskPath: string): HostSensors {
  const isLinux = platform === "linux";
  const loadPct = loadMeter();
  let information: Promise<typeof SystemInformation> | null = null;

  /** Loaded at the first call, so that an agent without a host source does not carry it. */
  async function systemInformation(): Promise<typeof SystemInformation> {
    information ??= import("systeminformation").then((loaded) => {
      if (platform === "win32") loaded.powerShellStart();
      return loaded;
    });
    return await information;
  }

  return {
    async memoryUsedPct() {
      const { total, available } = await (await systemInformation()).mem();
      return total > 0 ? (100 * (total - available)) / total : null;
    },
    loadPct,
    async processorC() {
      if (isLinux) return await hottestProcessor("/sys");
      return (await (await systemInformation()).cpuTemperature()).main;
    },
    async diskFreeMb() {
      const { bavail, bsize } = await statfs(diskPath);
      return (bavail * bsize) / 1_048_576;
    },
    networkUp,
    async power() {
      if (isLinux) return await readPowerSupplies("/sys");
      const { hasBattery, acConnected, percent } = await (await systemInformation()).battery();
      return hasBattery ? { isOnMains: acConnected, batteryPct: percent } : null;
    },
    close() {
      if (platform === "win32" && information) void information.then((loaded) => loaded.powerShellRelease());
    },
  };
}

/** The processor's own sensor under a sysfs tree; null where none is known as such. */
export async function hottestProcessor(root: string): Promise<number | null> {
  const all = await findThermometers(root);
  const own = processorSensors.map((names) => all.filter(({ key }) => names.test(key)));
  const readings = await Promise.all(
    (own.find((found) => found.length > 0) ?? []).map((each) => each.read()),
  );
  const degrees = readings.flatMap((reading) => ("celsius" in reading ? [reading.celsius] : []));
  return degrees.length === 0 ? null : Math.max(...degrees);
}

/** An address other than of this computer alone, and other than one that a computer without a network gives itself. */
function networkUp(): boolean {
  const addresses = Object.values(networkInterfaces()).flatMap((each) => each ?? []);
  // RFC 3927 section 2.1 and RFC 4291 section 2.5.6: link-local addresses.
  return addresses.some(({ internal, address }) => !internal && !/^(169\.254\.|fe80:)/i.test(address));
}

function loadMeter(): () => number | null {
  let before: { busy: number; all: number } | null = null;
  return () => {
    const times = cpus().map((each) => each.times);
    const idle = times.reduce((sum, each) => sum + each.idle, 0);
    const all = times.reduce((sum, each) => sum + each.user + each.nice + each.sys + each.irq + each.idle, 0);
    const now = { busy: all - idle, all };
    const last = before;
    before = now;
    if (!last || now.all <= last.all) return null;
    return Math.min(100, Math.max(0, (100 * (now.busy - last.busy)) / (now.all - last.all)));
  };
}
