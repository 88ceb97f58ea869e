import type { NewItem } from "@boothward/shared-types";
import type { PowerSeen } from "./powerSupplies.ts";

export type HostReading = Extract<NewItem, { kind: "host" }>;

/** Changes that are told before the minute is over. Load and disk move all the time and wait for it. */
const large = { memoryUsedPct: 10, processorC: 5, batteryPct: 5 } as const;

/** True for a first reading, for a network that came or went, and for a figure that moved far or vanished. */
export function isLargeChange(told: HostReading | null, seen: HostReading): boolean {
  if (!told || told.networkUp !== seen.networkUp) return true;
  return Object.entries(large).some(([name, step]) => {
    const [before, now] = [told[name as keyof typeof large], seen[name as keyof typeof large]];
    if (before === null || now === null) return before !== now;
    return Math.abs(now - before) >= step;
  });
}

/** On battery each five points are told, so that the figure on the page is never far off. */
const batteryStepPct = 5;

export function powerChanged(told: PowerSeen | null, seen: PowerSeen): boolean {
  if (!told || told.isOnMains !== seen.isOnMains) return true;
  return Math.abs((seen.batteryPct ?? 0) - (told.batteryPct ?? 0)) >= batteryStepPct;
}
