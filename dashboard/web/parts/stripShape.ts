import type { FanPoint, LeftPoint } from "@boothward/shared-types/view";

/** When a roll is empty, 80 % band; null: not before the close. */
export type Empty = { p10: number | null; p50: number | null; p90: number | null };

/** What the strip of an evening is drawn from; all instants Unix ms, all heights in sheets. */
export type StripInput = {
  openAtMs: number;
  closeAtMs: number | null;
  /** Ends of the axis: of the booking itself on a card, of all strips together on the wide table. */
  fromAtMs: number;
  toAtMs: number;
  nowMs: number;
  /** Last moment that is known: now, or when a silent booth was last heard. */
  knownAtMs: number;
  kitSheets: number;
  /** Height of the paper in sheets; null: a full kit, or more where more was loaded. */
  topSheets: number | null;
  past: readonly LeftPoint[];
  sheetsLeft: number | null;
  fan: readonly FanPoint[];
  emptyAtMs: Empty;
  /** The quiet stretch in which a change of roll is advised, and the moment that is advised; null: none is. */
  lull: { fromAtMs: number; toAtMs: number } | null;
  changeAtMs: number | null;
  /** Since when the printer stands still; null: it does not. */
  stoppedAtMs: number | null;
};

/** The rectangle the paper fills, px. */
export type StripBox = { leftPx: number; rightPx: number; topPx: number; bottomPx: number; strokePx: number };

export type StripShape = {
  x: Scale;
  y: Scale;
  ground: string;
  used: string;
  usedLine: string;
  rays: string;
  mid: string;
  /** Where the roll is expected to end: its ring (null: not before the close) and the bar around it. */
  empty: { ringPx: number | null; fromPx: number; toPx: number } | null;
  stop: { fromPx: number; toPx: number; isOut: boolean } | null;
  lull: { fromPx: number; toPx: number } | null;
  nowPx: number | null;
  closePx: number | null;
};

/** Geometry of a strip: paper with a torn start and a clean cut at the close, the past filled, the fan ahead. */
export function stripShape(input: StripInput, box: StripBox): StripShape {
  const endAtMs = input.closeAtMs ?? input.toAtMs;
  const widthPx = box.rightPx - box.leftPx;
  const top = input.topSheets ?? fullHeight(input);
  const x = (atMs: number) =>
    round(box.leftPx + ((atMs - input.fromAtMs) / (input.toAtMs - input.fromAtMs)) * widthPx);
  const y = (sheets: number) =>
    round(box.bottomPx - 2 - (Math.max(0, sheets) / (top * 1.04)) * (box.bottomPx - box.topPx - 6));
  const past = knownPast(input, endAtMs);
  const fan = clipFan(input.fan, Math.max(input.openAtMs, input.fromAtMs), endAtMs);
  const isNowSeen = input.nowMs >= input.fromAtMs && input.nowMs <= input.toAtMs;
  return {
    x,
    y,
    ground: groundPath(x(input.openAtMs), x(endAtMs), box),
    used: splitAtRolls(past)
      .map((part) => areaPath(part, x, y, box.bottomPx))
      .join(""),
    usedLine: linePath(past, x, y),
    rays: raysPath(fan, x, y, box.strokePx),
    mid: coursePath(fan, "p50", x, y),
    empty: emptyMark(input, endAtMs, x),
    stop: stopMark(input, x),
    lull: input.lull === null ? null : { fromPx: x(input.lull.fromAtMs), toPx: x(input.lull.toAtMs) },
    nowPx: isNowSeen ? x(input.nowMs) : null,
    closePx: input.closeAtMs === null ? null : x(input.closeAtMs),
  };
}

function fullHeight({ kitSheets, sheetsLeft, past }: StripInput): number {
  return Math.max(kitSheets, sheetsLeft ?? 0, ...past.map((point) => point.sheetsLeft));
}

type Scale = (n: number) => number;

const round = (px: number): number => Math.round(px * 10) / 10;

/** The torn edge bites this deep and this often, px. */
const tearPx = 2.6;
const tearEveryPx = 9;

function groundPath(x0: number, x1: number, box: StripBox): string {
  const heightPx = box.bottomPx - box.topPx;
  const teeth = Math.max(4, Math.round(heightPx / tearEveryPx));
  let tear = "";
  for (let i = teeth; i >= 0; i -= 1)
    tear += `L${round(x0 + (i % 2 === 1 ? tearPx : 0))} ${round(box.topPx + (heightPx * i) / teeth)}`;
  return `M${x0} ${box.topPx}H${x1}V${box.bottomPx}H${x0}${tear}Z`;
}

/** The past within the open hours, carried to the last moment that is known. */
function knownPast(input: StripInput, endAtMs: number): LeftPoint[] {
  const untilMs = Math.min(input.knownAtMs, endAtMs);
  const inside = input.past.filter((point) => point.atMs >= input.openAtMs && point.atMs <= untilMs);
  const before = input.past.findLast((point) => point.atMs < input.openAtMs);
  const start = before === undefined ? [] : [{ atMs: input.openAtMs, sheetsLeft: before.sheetsLeft }];
  const points = [...start, ...inside];
  const last = points.at(-1);
  if (last === undefined || last.atMs >= untilMs) return points;
  return [...points, { atMs: untilMs, sheetsLeft: input.sheetsLeft ?? last.sheetsLeft }];
}

/** Parts between roll changes: a new part where the figure goes up. */
export function splitAtRolls(points: readonly LeftPoint[]): LeftPoint[][] {
  const parts: LeftPoint[][] = [];
  let last: LeftPoint | undefined;
  for (const point of points) {
    const part = parts.at(-1);
    if (part === undefined || (last !== undefined && point.sheetsLeft > last.sheetsLeft)) parts.push([point]);
    else part.push(point);
    last = point;
  }
  return parts;
}

function linePath(points: readonly LeftPoint[], x: Scale, y: Scale): string {
  if (points.length === 0) return "";
  return `M${points.map((point) => `${x(point.atMs)} ${y(point.sheetsLeft)}`).join("L")}`;
}

function areaPath(part: readonly LeftPoint[], x: Scale, y: Scale, bottomPx: number): string {
  const first = part[0];
  const last = part.at(-1);
  if (first === undefined || last === undefined) return "";
  const rim = part.map((point) => `L${x(point.atMs)} ${y(point.sheetsLeft)}`).join("");
  return `M${x(first.atMs)} ${bottomPx}${rim}L${x(last.atMs)} ${bottomPx}Z`;
}

/** The fan's value at an instant, between its points. */
export function fanAt(fan: readonly FanPoint[], atMs: number): FanPoint | null {
  const next = fan.findIndex((point) => point.atMs >= atMs);
  const b = fan[next];
  if (b === undefined) return null;
  const a = fan[next - 1];
  if (a === undefined) return b.atMs === atMs ? b : null;
  const part = (atMs - a.atMs) / (b.atMs - a.atMs);
  const between = (from: number, to: number) => from + (to - from) * part;
  return { atMs, p10: between(a.p10, b.p10), p50: between(a.p50, b.p50), p90: between(a.p90, b.p90) };
}

function clipFan(fan: readonly FanPoint[], fromAtMs: number, toAtMs: number): FanPoint[] {
  const first = fan[0];
  const last = fan.at(-1);
  if (first === undefined || last === undefined) return [];
  const edges = [Math.max(fromAtMs, first.atMs), Math.min(toAtMs, last.atMs)].flatMap(
    (atMs) => fanAt(fan, atMs) ?? [],
  );
  const inside = fan.filter((point) => point.atMs > fromAtMs && point.atMs < toAtMs);
  return [...edges, ...inside].sort((a, b) => a.atMs - b.atMs);
}

/** Forecast ink: upright strokes over the 80 % band that thin out towards the close. */
function raysPath(fan: readonly FanPoint[], x: Scale, y: Scale, strokePx: number): string {
  const first = fan[0];
  const last = fan.at(-1);
  if (first === undefined || last === undefined) return "";
  const spanPx = x(last.atMs) - x(first.atMs);
  let path = "";
  for (let px = strokePx; px <= spanPx; px += strokePx) {
    const part = px / spanPx;
    const point = fanAt(fan, first.atMs + part * (last.atMs - first.atMs));
    if (point === null || point.p90 <= 0) continue;
    const halfPx = (strokePx * 0.92 * (1 - part) ** 1.3 + 0.8) / 2;
    const middle = x(first.atMs) + px;
    path += `M${round(middle - halfPx)} ${y(point.p90)}H${round(middle + halfPx)}V${y(point.p10)}H${round(middle - halfPx)}Z`;
  }
  return path;
}

/** One course of the fan as a line; it ends on the floor where the roll would be empty. */
export function coursePath(
  fan: readonly FanPoint[],
  share: "p10" | "p50" | "p90",
  x: Scale,
  y: Scale,
): string {
  const points: string[] = [];
  let last: FanPoint | undefined;
  for (const point of fan) {
    if (last !== undefined && last[share] > 0 && point[share] <= 0) {
      const part = last[share] / (last[share] - point[share]);
      points.push(`${x(last.atMs + part * (point.atMs - last.atMs))} ${y(0)}`);
    }
    if (point[share] > 0) points.push(`${x(point.atMs)} ${y(point[share])}`);
    last = point;
  }
  return points.length < 2 ? "" : `M${points.join("L")}`;
}

function emptyMark(input: StripInput, endAtMs: number, x: Scale): StripShape["empty"] {
  const { p10, p50, p90 } = input.emptyAtMs;
  if (input.fan.length === 0 || p10 === null || p10 >= endAtMs) return null;
  return {
    ringPx: p50 === null || p50 >= endAtMs ? null : x(p50),
    fromPx: x(Math.max(p10, input.fromAtMs)),
    toPx: x(Math.min(p90 ?? endAtMs, endAtMs)),
  };
}

function stopMark(input: StripInput, x: Scale): StripShape["stop"] {
  // Before its doors open a booth has no evening that a stop could be drawn on.
  if (input.stoppedAtMs === null || input.stoppedAtMs > input.nowMs || input.nowMs < input.openAtMs)
    return null;
  return {
    fromPx: x(Math.max(input.stoppedAtMs, input.openAtMs)),
    toPx: x(Math.min(input.nowMs, input.toAtMs)),
    isOut: input.sheetsLeft !== null && input.sheetsLeft <= 0,
  };
}
