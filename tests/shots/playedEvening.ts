import type { BoothView, FanPoint, LeftPoint } from "@boothward/shared-types/view";
import { minuteMs } from "../support/aBoothView.ts";

/** An evening by a smooth demand, without dice: what was used so far, and the 80 % band of what is to come. */
export type Evening = {
  openAtMs: number;
  closeAtMs: number;
  nowMs: number;
  kitSheets: number;
  startSheets: number;
  /** When full rolls were fitted. */
  changesAtMs: readonly number[];
  sheetsPerHour: (atMs: number) => number;
  /** How unsure the demand is, as a share of it. */
  unsure: number;
};

type Played = Pick<BoothView, "past" | "rollChangesAtMs"> & {
  sheetsLeft: number;
  media: NonNullable<BoothView["outlook"]["media"]>;
};

const stepMs = 10 * minuteMs;
const z90 = 1.2816;

/** The parts of a BoothView that such an evening gives. */
export function playedEvening(evening: Evening): Played {
  const past = playPast(evening);
  const sheetsLeft = Math.max(0, Math.round(past.at(-1)?.sheetsLeft ?? evening.startSheets));
  const fan = playFan(evening, sheetsLeft);
  const atClose = fan.at(-1);
  if (atClose === undefined) throw new Error(`an evening that is over has no fan: now ${evening.nowMs}`);
  const emptyAt = (key: "p10" | "p50" | "p90") => fan.find((point) => point[key] <= 0)?.atMs ?? null;
  const spread = (atClose.p90 - atClose.p50) / z90;
  return {
    past,
    rollChangesAtMs: [...evening.changesAtMs],
    sheetsLeft,
    media: {
      sheetsPerHour: evening.sheetsPerHour(evening.nowMs),
      fan: fan.filter((_, i) => i % 2 === 0 || i === fan.length - 1),
      emptyAtMs: { p10: emptyAt("p10"), p50: emptyAt("p50"), p90: emptyAt("p90") },
      leftAtClose: { p10: atClose.p10, p50: atClose.p50, p90: atClose.p90 },
      lastsChance: spread === 0 ? 1 : 1 / (1 + Math.exp((-1.7 * atClose.p50) / spread)),
      ...{ basis: "planned" as const, change: null, rationing: null, waits: null },
      rolls: { needed: 1, spares: 1, lastsChance: 0.98 },
    },
  };
}

function playPast(evening: Evening): LeftPoint[] {
  const points: LeftPoint[] = [];
  let left = evening.startSheets;
  for (let atMs = evening.openAtMs; atMs <= evening.nowMs; atMs += minuteMs) {
    if (evening.changesAtMs.includes(atMs)) {
      points.push({ atMs: atMs - 1, sheetsLeft: left });
      left = evening.kitSheets;
      points.push({ atMs, sheetsLeft: left });
    }
    if ((atMs - evening.openAtMs) % stepMs === 0) points.push({ atMs, sheetsLeft: Math.max(0, left) });
    left -= evening.sheetsPerHour(atMs) / 60;
  }
  if (evening.nowMs >= evening.openAtMs) points.push({ atMs: evening.nowMs, sheetsLeft: Math.max(0, left) });
  return points;
}

function playFan(evening: Evening, sheetsLeft: number): FanPoint[] {
  const points: FanPoint[] = [];
  let used = 0;
  const startAtMs = Math.max(evening.nowMs, evening.openAtMs);
  for (let atMs = startAtMs; atMs <= evening.closeAtMs; atMs += minuteMs) {
    const spread = z90 * Math.sqrt(2.75 * used + (evening.unsure * used) ** 2);
    const p50 = sheetsLeft - used;
    if ((evening.closeAtMs - atMs) % (5 * minuteMs) === 0 || atMs === startAtMs)
      points.push({ atMs, p10: p50 - spread, p50, p90: p50 + spread });
    used += evening.sheetsPerHour(atMs) / 60;
  }
  return points;
}
