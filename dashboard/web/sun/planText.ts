import type { BoothFrame, Opening, SunSite } from "../../forecast/sun/boothFrame.ts";
import { clearSunAt } from "../../forecast/sun/sunRay.ts";
import { sunPlan as words, walls, windLetters, windOf } from "../words/en/sun.ts";
import { listed } from "../words/en/today.ts";
import type { Format } from "../../alerts/format.ts";
import { litThrough } from "./dayPlan.ts";
import type { DayPlan } from "./dayPlan.ts";

export const degText = (deg: number): string => `${Math.round(deg)}°`;

const wallNames: Record<number, string> = {
  0: walls.front,
  90: walls.right,
  180: walls.rear,
  270: walls.left,
};

/** The openings by the wall they are in, "left"; numbered where a wall has several. */
export function openingLabels(openings: readonly Pick<Opening, "bearingDeg">[]): string[] {
  const walls = openings.map(({ bearingDeg }) => wallNames[(bearingDeg + 360) % 360] ?? degText(bearingDeg));
  return numbered(walls);
}

/** The same as a sentence calls them, "left opening". */
export function openingNames(openings: readonly Pick<Opening, "bearingDeg">[]): string[] {
  const names = openings.map(({ bearingDeg }) => {
    const wall = wallNames[(bearingDeg + 360) % 360];
    return wall === undefined ? words.openingTo(degText(bearingDeg)) : words.openingAt(wall);
  });
  return numbered(names);
}

function numbered(names: readonly string[]): string[] {
  return names.map((name, index) =>
    names.filter((each) => each === name).length === 1
      ? name
      : words.numbered(name, names.slice(0, index + 1).filter((each) => each === name).length),
  );
}

function through(indexes: readonly number[], names: readonly string[]): string {
  return listed(indexes.map((index) => words.theOpening(names[index] ?? "")));
}

/** When the sun reaches the printer that day, as a sentence. */
export function dayText(plan: DayPlan, frame: BoothFrame, format: Format): string {
  const day = format.day(plan.hours.fromMs);
  if (plan.sun.course === "downAllDay") return words.neverUp(day);
  if (plan.onPrinter.length === 0) return words.reachesNot(day);
  const names = openingNames(frame.openings);
  return words.reaches(
    listed(
      plan.onPrinter.map(({ fromMs, toMs, openings }) =>
        words.stretch(format.clock(fromMs), format.clock(toMs), through(openings, names)),
      ),
    ),
  );
}

/** How high the sun stands and where, or why it is not seen. */
export function sunText(site: SunSite, atMs: number): string {
  const { elevationDeg, azimuthDeg, clearDeg } = clearSunAt(site, atMs);
  if (elevationDeg <= 0) return words.sunDown;
  return clearDeg <= 0
    ? words.behind(windOf(azimuthDeg))
    : words.sunAt(degText(elevationDeg), windOf(azimuthDeg));
}

/** The sun and the printer at one moment. */
export function momentText(plan: DayPlan, frame: BoothFrame, site: SunSite, atMs: number): string {
  const lit = litThrough(plan, atMs);
  const printer = lit.length === 0 ? words.unlit : words.lit(through(lit, openingNames(frame.openings)));
  return words.state(sunText(site, atMs), printer);
}

/** The sun on the printer by opening, from and to. */
export function openingRows(plan: DayPlan, frame: BoothFrame, format: Format): string[][] {
  return openingNames(frame.openings).flatMap((name, index) => {
    const stretches = plan.byOpening[index] ?? [];
    if (stretches.length === 0) return [[name, words.never, ""]];
    return stretches.map(({ fromMs, toMs }) => [name, format.clock(fromMs), format.clock(toMs)]);
  });
}

const hourMs = 3_600_000;

/** What the slider shows, each hour from the sun's rise to its set. */
export function hourRows(plan: DayPlan, site: SunSite, format: Format): string[][] {
  const { fromMs, toMs } = plan.slide;
  const first = Math.ceil(fromMs / hourMs) * hourMs;
  const count = Math.max(0, Math.floor((toMs - first) / hourMs) + 1);
  return Array.from({ length: count }, (_, i) => {
    const atMs = first + i * hourMs;
    const { elevationDeg, azimuthDeg } = clearSunAt(site, atMs);
    const isLit = litThrough(plan, atMs).length > 0;
    return [
      format.clock(atMs),
      elevationDeg <= 0 ? words.down : words.sunCell(degText(elevationDeg), windLetters(azimuthDeg)),
      isLit ? words.inSun : words.inShade,
    ];
  });
}
