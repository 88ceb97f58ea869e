import { outsideAt, type InsidePoint, type InsideSensor, type Readings } from "./readings.ts";

/** The part of a booth's state that is read. */
type Read = { readonly readings: Readings };

/** The temperature at the printer, and how it moves. */
export type InsideNow = {
  readonly sensor: string;
  readonly insideC: number;
  readonly atMs: number;
  /** Change over the last quarter of an hour; null: not seen so long. */
  readonly per15MinC: number | null;
  readonly outsideC: number | null;
  readonly humidityPct: number | null;
};

const minuteMs = 60_000;

const goodMs = 10 * minuteMs;

/** Whether a reading still says something of an instant. */
export function isGoodAt(reading: { readonly atMs: number }, atMs: number): boolean {
  return atMs - reading.atMs <= goodMs;
}

/** Sensors seen within this time of the newest one are compared. */
const sameTimeMs = 10 * minuteMs;
const quarterMs = 15 * minuteMs;

/** A point this much older than a quarter of an hour still shows the change over it. */
const quarterSlackMs = 5 * minuteMs;

/** The warmest of the booth's sensors, null before the first reading: it is the warmest that stops a printer. */
export function insideNow(state: Read): InsideNow | null {
  const sensor = warmestSensor(state);
  if (sensor === null) return null;
  return {
    sensor: sensor.sensor,
    insideC: sensor.insideC,
    atMs: sensor.atMs,
    per15MinC: per15MinC(sensor),
    outsideC: outsideAt(state.readings, sensor.atMs),
    humidityPct: sensor.humidityPct,
  };
}

/**
 * Since when the warmest sensor has been at or over a limit, in the hours that are remembered: a dip counts only when it goes
 * under `limitC - bandC`. Null when it is under the limit, or has not reached it since the last dip.
 */
export function hotSince(
  state: Read,
  limitC: number,
  bandC: number,
): { atMs: number; isWholeTrail: boolean } | null {
  const trail = warmestSensor(state)?.trail ?? [];
  const dip = trail.findLastIndex((point) => point.insideC < limitC - bandC);
  const run = trail.slice(dip + 1);
  const first = run.find((point) => point.insideC >= limitC);
  return first === undefined ? null : { atMs: first.atMs, isWholeTrail: dip < 0 && first === run[0] };
}

function warmestSensor(state: Read): InsideSensor | null {
  const newestAtMs = Math.max(...state.readings.inside.map((each) => each.atMs));
  const present = state.readings.inside.filter((each) => each.atMs >= newestAtMs - sameTimeMs);
  return present.reduce<InsideSensor | null>(
    (warmest, each) => (warmest === null || each.insideC > warmest.insideC ? each : warmest),
    null,
  );
}

function per15MinC({ trail, insideC, atMs }: InsideSensor): number | null {
  const then: InsidePoint | undefined = trail.findLast((point) => point.atMs <= atMs - quarterMs);
  if (then === undefined || then.atMs < atMs - quarterMs - quarterSlackMs) return null;
  return ((insideC - then.insideC) * quarterMs) / (atMs - then.atMs);
}
