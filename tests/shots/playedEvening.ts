import type { BoothView, FanPoint, LeftPoint, WhatIf } from "@boothward/shared-types/view";
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
  /** The middle of a quiet half hour. */
  lullAtMs: number;
  spares: number;
  /** How unsure the demand is, as a share of it. */
  unsure: number;
};

type MediaOutlook = NonNullable<BoothView["outlook"]["media"]>;
type Played = Pick<BoothView, "past" | "rollChangesAtMs"> & { sheetsLeft: number; media: MediaOutlook };

const stepMs = 10 * minuteMs;
const z90 = 1.2816;
export const sheetsPerSession = 1.6;

/** The parts of a BoothView that such an evening gives. */
export function playedEvening(evening: Evening): Played {
  const past = playPast(evening);
  const sheetsLeft = Math.max(0, Math.round(past.at(-1)?.sheetsLeft ?? evening.startSheets));
  const ahead = lookAhead(evening, sheetsLeft);
  const change = changeOf(evening, ahead);
  const isShort = ahead.rolls.needed > evening.spares;
  return {
    past,
    rollChangesAtMs: [...evening.changesAtMs],
    sheetsLeft,
    media: {
      ...ahead,
      sheetsPerHour: evening.sheetsPerHour(evening.nowMs),
      ...{ basis: "planned", change },
      rationing: isShort
        ? { lastsChanceNow: 0.97, latestAtMs: evening.nowMs + 35 * minuteMs, riskKept: 0.05 }
        : null,
      waits: { printMs: 25_000, boothMs: 3 * minuteMs },
    },
  };
}

/** The same from here on with a later close and with one print a session, as the sliders want them. */
export function playedWhatIfs(evening: Evening): WhatIf[] {
  const past = playPast(evening);
  const sheetsLeft = Math.max(0, Math.round(past.at(-1)?.sheetsLeft ?? evening.startSheets));
  return [false, true].flatMap((isOnePrint) =>
    Array.from({ length: 9 }, (_, i): WhatIf => {
      const sheetsPerHour = (atMs: number) =>
        evening.sheetsPerHour(atMs) / (isOnePrint ? sheetsPerSession : 1);
      const closeAtMs = evening.closeAtMs + i * 15 * minuteMs;
      const ahead = lookAhead({ ...evening, closeAtMs, sheetsPerHour }, sheetsLeft);
      return { ...ahead, extraMin: i * 15, isOnePrint };
    }),
  );
}

function lookAhead(evening: Evening, sheetsLeft: number) {
  const fan = playFan(evening, sheetsLeft);
  const atClose = fan.at(-1);
  if (atClose === undefined) throw new Error(`an evening that is over has no fan: now ${evening.nowMs}`);
  const emptyAt = (key: "p10" | "p50" | "p90") => fan.find((point) => point[key] <= 0)?.atMs ?? null;
  const spread = (atClose.p90 - atClose.p50) / z90;
  const chance = (sheets: number) => (spread === 0 ? 1 : 1 / (1 + Math.exp((-1.7 * sheets) / spread)));
  const needed = Math.ceil(Math.max(0, 2.33 * spread - atClose.p50) / evening.kitSheets);
  return {
    fan: fan.filter((_, i) => i % 3 === 0 || i === fan.length - 1),
    emptyAtMs: { p10: emptyAt("p10"), p50: emptyAt("p50"), p90: emptyAt("p90") },
    leftAtClose: { p10: atClose.p10, p50: atClose.p50, p90: atClose.p90 },
    lastsChance: chance(atClose.p50),
    rolls: {
      needed,
      spares: evening.spares,
      lastsChance: chance(atClose.p50 + evening.spares * evening.kitSheets),
    },
  };
}

/** In the lull where the roll ends after it, else when it is empty. */
function changeOf(evening: Evening, ahead: ReturnType<typeof lookAhead>): MediaOutlook["change"] {
  const emptyAtMs = ahead.emptyAtMs.p50;
  if (emptyAtMs === null) return null;
  const groups = (atMs: number) => ((evening.sheetsPerHour(atMs) / sheetsPerSession) * 4) / 60;
  const atEmpty = { atMs: emptyAtMs, groupsDelayed: groups(emptyAtMs), sheetsSetAside: 0 };
  const lull = { fromAtMs: evening.lullAtMs - 15 * minuteMs, toAtMs: evening.lullAtMs + 15 * minuteMs };
  if (lull.fromAtMs < evening.nowMs || emptyAtMs < lull.toAtMs)
    return { advised: atEmpty, atEmpty, lull: null, emptyBeforeChance: 0.5 };
  const atMs = evening.lullAtMs + 5 * minuteMs;
  const left = ahead.fan.findLast((point) => point.atMs <= atMs)?.p50 ?? 0;
  const advised = { atMs, groupsDelayed: groups(atMs), sheetsSetAside: Math.max(0, left) };
  return { advised, atEmpty, lull, emptyBeforeChance: 0.06 };
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
