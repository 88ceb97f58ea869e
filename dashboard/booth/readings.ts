import type { StoredItem } from "@boothward/shared-types";
import { withEntry } from "./keyed.ts";
import { foldPaceQueue, forgetOldPaces, type SheetPace } from "./sheetPaces.ts";

/** The latest readings of a booth, by sensor or queue; old ones are let go, they may be thinned anyway. */
export type Readings = {
  readonly inside: readonly InsideSensor[];
  readonly outside: readonly { readonly sensor: string; readonly outsideC: number; readonly atMs: number }[];
  readonly queues: readonly QueueSeen[];
  readonly host: HostSeen | null;
  /** Off the mains, oldest first; empty on mains. */
  readonly battery: readonly BatteryPoint[];
  readonly paces: readonly SheetPace[];
};

export type InsideSensor = {
  readonly sensor: string;
  readonly insideC: number;
  readonly humidityPct: number | null;
  readonly atMs: number;
  /** The last hours, the latest reading of each minute, oldest first; the reading itself is its end. */
  readonly trail: readonly InsidePoint[];
};
/** `outsideC`: the air outside as it was known then, null where nothing measured it lately. */
export type InsidePoint = {
  readonly atMs: number;
  readonly insideC: number;
  readonly outsideC: number | null;
};
export type QueueSeen = {
  readonly queue: string;
  readonly queuedJobs: number | null;
  readonly atMs: number;
  /** Since when jobs wait in it; null: none does. At most `waitMs` back. */
  readonly waitingSinceAtMs: number | null;
};
export type HostSeen = {
  readonly batteryPct: number | null;
  readonly diskFreeMb: number | null;
  readonly atMs: number;
};
export type BatteryPoint = { readonly atMs: number; readonly batteryPct: number };

type ItemOf<K extends StoredItem["kind"]> = Extract<StoredItem, { kind: K }>;

const minuteMs = 60_000;
/** The temperature is forecast from so much: long enough to know how a booth warms and cools. */
export const trailMs = 4 * 60 * minuteMs;

/** A sensor not heard for so long says nothing of now. */
const forgetAfterMs = 2 * 60 * minuteMs;

/** Air outside changes slowly: an older reading is not taken with one inside. */
export const outsideGoodMs = 30 * minuteMs;

/** A figure a minute for as long as readings are kept. */
const batteryKept = 120;

/** Jobs that have waited so long have waited for ever. */
const waitMs = 2 * 60 * minuteMs;

/** A queue not heard for so long may have been empty in between. */
const unheardMs = 30 * minuteMs;

/**
 * How far before the newest item readings still count in the state: a sensor nearly forgotten with its hours of
 * points, or a queue nearly forgotten with its wait. Facts count from the first one on.
 */
export const readingMemoryMs = forgetAfterMs + Math.max(trailMs, waitMs + unheardMs) + 5 * minuteMs;

export const noReadings: Readings = {
  inside: [],
  outside: [],
  queues: [],
  host: null,
  battery: [],
  paces: [],
};

/** Takes in a temperature at the printer. */
export function foldInside(readings: Readings, item: ItemOf<"inside">): Readings {
  const { sensor, insideC, humidityPct, atMs } = item;
  const known = readings.inside.find((each) => each.sensor === sensor);
  const outsideC = outsideAt(readings, atMs);
  const trail = withPoint(known?.trail ?? [], { atMs, insideC, outsideC });
  const entry = { sensor, insideC, humidityPct, atMs, trail };
  return { ...readings, inside: withEntry(readings.inside, (each) => each.sensor, entry) };
}

/** The coolest that was measured outside a moment before: a sensor in the sun reads too much. */
export function outsideAt({ outside }: Pick<Readings, "outside">, atMs: number): number | null {
  const recent = outside.filter((each) => each.atMs >= atMs - outsideGoodMs);
  return recent.length === 0 ? null : Math.min(...recent.map((each) => each.outsideC));
}

/** Takes in a temperature outside. */
export function foldOutside(readings: Readings, item: ItemOf<"outside">): Readings {
  const { sensor, outsideC, atMs } = item;
  const entry = { sensor, outsideC, atMs };
  return { ...readings, outside: withEntry(readings.outside, (each) => each.sensor, entry) };
}

/** Takes in the length of a queue. */
export function foldQueue(readings: Readings, item: ItemOf<"queue">): Readings {
  const { queue, queuedJobs, atMs } = item;
  const before = readings.queues.find((each) => each.queue === queue) ?? null;
  const waitingSinceAtMs = queuedJobs === null || queuedJobs === 0 ? null : waitingSince(before, atMs);
  const entry = { queue, queuedJobs, atMs, waitingSinceAtMs };
  const queues = withEntry(readings.queues, (each) => each.queue, entry);
  return { ...readings, queues, paces: foldPaceQueue(readings.paces, item) };
}

function waitingSince(before: QueueSeen | null, atMs: number): number {
  if (before === null || before.waitingSinceAtMs === null || atMs - before.atMs > unheardMs) return atMs;
  return Math.max(before.waitingSinceAtMs, atMs - waitMs);
}

/** Takes in the booth computer's own state. */
export function foldHost(readings: Readings, item: ItemOf<"host">, isOnMains: boolean | null): Readings {
  const { batteryPct, diskFreeMb, atMs } = item;
  return foldBattery({ ...readings, host: { batteryPct, diskFreeMb, atMs } }, item, isOnMains);
}

/** Takes in how full the battery is, while it is what the computer runs on. */
export function foldBattery(
  readings: Readings,
  { atMs, batteryPct }: { readonly atMs: number; readonly batteryPct: number | null },
  isOnMains: boolean | null,
): Readings {
  if (isOnMains !== false) return readings.battery.length === 0 ? readings : { ...readings, battery: [] };
  if (batteryPct === null) return readings;
  return { ...readings, battery: [...readings.battery.slice(1 - batteryKept), { atMs, batteryPct }] };
}

/** Lets go of what was last seen too long before this instant. */
export function forgetOldReadings(readings: Readings, atMs: number): Readings {
  const isRecent = (seen: { readonly atMs: number }) => seen.atMs >= atMs - forgetAfterMs;
  const { inside, outside, queues, host, battery } = readings;
  const paces = forgetOldPaces(readings.paces, atMs - trailMs);
  const all = [...inside, ...outside, ...queues, ...(host === null ? [] : [host]), ...battery];
  if (all.every(isRecent)) return paces === readings.paces ? readings : { ...readings, paces };
  return {
    paces,
    inside: inside.filter(isRecent),
    outside: outside.filter(isRecent),
    queues: queues.filter(isRecent),
    host: host !== null && isRecent(host) ? host : null,
    battery: battery.filter(isRecent),
  };
}

function withPoint(trail: readonly InsidePoint[], point: InsidePoint): readonly InsidePoint[] {
  const last = trail.at(-1);
  const isSameMinute =
    last !== undefined && Math.floor(last.atMs / minuteMs) === Math.floor(point.atMs / minuteMs);
  const before = isSameMinute ? trail.slice(0, -1) : trail;
  return [...before.filter((each) => each.atMs >= point.atMs - trailMs), point];
}
