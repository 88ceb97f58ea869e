import type { SunStretch } from "@boothward/shared-types/site";
import { paper as words } from "../words/en/booth.ts";
import { sunWords } from "../words/en/heatAhead.ts";
import type { Format } from "../../alerts/format.ts";
import { fanAt } from "../parts/stripShape.ts";
import type { StripInput } from "../parts/stripShape.ts";
import type { Tried } from "../parts/tried.ts";

const halfHourMs = 30 * 60_000;

/**
 * The picture of the evening as rows: sheets left each half hour and at each of its marks, as it was, then as
 * expected with the band of eight in ten. While something is tried, that is what is expected.
 */
export function paperRows(
  input: StripInput,
  tried: Tried | null,
  changesAtMs: readonly number[],
  sun: readonly SunStretch[],
  format: Format,
): string[][] {
  const shown =
    tried === null
      ? input
      : {
          ...input,
          ...{ fan: tried.fan, emptyAtMs: tried.emptyAtMs, lull: null, changeAtMs: null },
          ...{ closeAtMs: tried.closeAtMs, toAtMs: tried.closeAtMs },
        };
  const marks = marksOf(shown, changesAtMs, sun);
  const times = new Set([...marks.keys(), ...halfHours(shown)]);
  return [...times]
    .sort((a, b) => a - b)
    .flatMap((atMs) => {
      const figures = figuresAt(shown, atMs, format);
      const names = marks.get(atMs) ?? [];
      if (figures === null && names.length === 0) return [];
      return [[[format.clock(atMs), ...names].join(", "), ...(figures ?? ["", ""])]];
    });
}

function halfHours(input: StripInput): number[] {
  const first = Math.ceil(input.openAtMs / halfHourMs) * halfHourMs;
  const count = Math.max(0, Math.floor((input.toAtMs - first) / halfHourMs) + 1);
  return Array.from({ length: count }, (_, i) => first + i * halfHourMs);
}

/** What the picture marks, by its moment. */
function marksOf(
  input: StripInput,
  changesAtMs: readonly number[],
  sun: readonly SunStretch[],
): Map<number, string[]> {
  const marks = new Map<number, string[]>();
  const mark = (atMs: number | null, name: string) => {
    if (atMs === null || atMs < input.openAtMs || atMs > input.toAtMs) return;
    marks.set(atMs, [...(marks.get(atMs) ?? []), name]);
  };
  for (const atMs of changesAtMs) mark(atMs, words.marks.fitted);
  for (const { fromAtMs, toAtMs } of sun) {
    mark(Math.max(fromAtMs, input.openAtMs), sunWords.on);
    mark(toAtMs, sunWords.off);
  }
  mark(input.knownAtMs, words.marks.now);
  mark(input.lull?.fromAtMs ?? null, words.marks.lull);
  mark(input.changeAtMs, words.marks.change);
  mark(input.lull?.toAtMs ?? null, words.marks.lullEnd);
  mark(input.emptyAtMs.p50, words.marks.empty);
  mark(input.closeAtMs, words.marks.close);
  return marks;
}

function figuresAt(input: StripInput, atMs: number, format: Format): string[] | null {
  if (atMs <= input.knownAtMs) {
    const was = input.past.findLast((point) => point.atMs <= atMs);
    return was === undefined ? null : [format.count(was.sheetsLeft), ""];
  }
  const point = fanAt(input.fan, atMs);
  if (point === null) return null;
  const [low = "", likely = "", high = ""] = [point.p10, point.p50, point.p90].map((n) =>
    format.count(Math.max(0, n)),
  );
  return [likely, words.within(low, high)];
}
