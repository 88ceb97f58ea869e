import { join } from "node:path";
import { listNames, readInt, readText } from "./sysfs.ts";

/** What feeds this computer; null where nothing says it: a computer with neither battery nor mains sensor. */
export type PowerSeen = { readonly isOnMains: boolean; readonly batteryPct: number | null };

/**
 * The power supplies under a sysfs tree. A battery of a mouse or a headset (scope Device) is none.
 *
 * **Source:** Linux kernel documentation, ABI sysfs-class-power.
 */
export async function readPowerSupplies(root: string): Promise<PowerSeen | null> {
  const base = join(root, "class", "power_supply");
  const supplies = await Promise.all((await listNames(base)).map((name) => readSupply(join(base, name))));
  const ours = supplies.filter((supply) => supply.scope !== "Device");
  const batteries = ours.filter((supply) => supply.type === "Battery");
  const feeds = ours.filter((supply) => supply.type !== "Battery" && supply.isOnline !== null);
  const capacities = batteries.flatMap((battery) => battery.capacityPct ?? []);
  const batteryPct = capacities.length === 0 ? null : Math.max(...capacities);
  if (feeds.length > 0) return { isOnMains: feeds.some((feed) => feed.isOnline), batteryPct };
  if (batteries.length === 0) return null;
  return { isOnMains: !batteries.some((battery) => battery.status === "Discharging"), batteryPct };
}

type Supply = {
  readonly type: string | null;
  readonly scope: string | null;
  readonly status: string | null;
  readonly isOnline: boolean | null;
  readonly capacityPct: number | null;
};

async function readSupply(folder: string): Promise<Supply> {
  const online = await readInt(join(folder, "online"));
  const capacityPct = await readInt(join(folder, "capacity"));
  return {
    type: await readText(join(folder, "type")),
    scope: await readText(join(folder, "scope")),
    status: await readText(join(folder, "status")),
    // 1 fixed, 2 programmable: both feed.
    isOnline: online === null ? null : online > 0,
    capacityPct: capacityPct !== null && capacityPct >= 0 && capacityPct <= 100 ? capacityPct : null,
  };
}
