import { intOf, intsOf, octetTextsOf, textOf, textsOf } from "./attributes.ts";
import type { IppGroup } from "./ippMessage.ts";

/** What a printer says is left of one part; null what it does not say. */
export type MeterSeen = {
  /** As the printer names it, or `kit` for paper and ribbon together. */
  readonly part: string;
  readonly sheetsLeft: number | null;
  readonly leftPct: number | null;
  /** How long ago the printer took this figure. */
  readonly ageMs: number | null;
};

export const meterAttributes: readonly string[] = [
  ...["marker-levels", "marker-names", "marker-message", "marker-change-time"],
  ...["printer-supply", "printer-supply-description"],
];

/**
 * The meters of a printer: an exact count from `marker-message` where its driver writes one, every marker,
 * and, where there are no markers, every supply.
 */
export function readMeters(printer: IppGroup, upTimeS: number | null): readonly MeterSeen[] {
  const ageMs = markerAgeMs(printer, upTimeS);
  const kit = kitMeter(textOf(printer, "marker-message"), ageMs);
  const markers = markerMeters(printer, ageMs);
  return [...kit, ...(markers.length > 0 ? markers : supplyMeters(printer))];
}

/**
 * The sheets left in a message such as "398 native prints remaining on 4x6 media" or "43 prints left"; null
 * where it holds no such number. **Source:** seen in the messages of open-source dye-sublimation drivers.
 */
export function sheetsInMessage(message: string): number | null {
  const found = /(\d+)\s+(?:native\s+)?prints?\s+(?:remaining|left)\b/i.exec(message);
  return found ? Number(found[1]) : null;
}

function kitMeter(message: string | null, ageMs: number | null): readonly MeterSeen[] {
  const sheetsLeft = message === null ? null : sheetsInMessage(message);
  return sheetsLeft === null ? [] : [{ part: "kit", sheetsLeft, leftPct: null, ageMs }];
}

/** marker-change-time is 0 as long as no job ran. **Source:** CUPS' IPP extensions. */
function markerAgeMs(printer: IppGroup, upTimeS: number | null): number | null {
  const changedAtS = intOf(printer, "marker-change-time");
  if (upTimeS === null || changedAtS === null || changedAtS <= 0) return null;
  return Math.max(0, (upTimeS - changedAtS) * 1_000);
}

function markerMeters(printer: IppGroup, ageMs: number | null): readonly MeterSeen[] {
  const names = textsOf(printer, "marker-names");
  return intsOf(printer, "marker-levels").map((level, i) => ({
    part: names[i] ?? `part ${i + 1}`,
    sheetsLeft: null,
    leftPct: asPct(level),
    ageMs,
  }));
}

/**
 * A supply is a text of `key=value;` pairs. **Source:** PWG 5100.13 section 5.6.33; units and the levels -1
 * other, -2 unknown, -3 some left are those of RFC 3805.
 */
function supplyMeters(printer: IppGroup): readonly MeterSeen[] {
  const names = textsOf(printer, "printer-supply-description");
  return octetTextsOf(printer, "printer-supply").flatMap((text, i) => {
    const supply = new Map(text.split(";").map((pair) => pair.trim().split("=", 2) as [string, string]));
    if (supply.get("class")?.startsWith("receptacle")) return [];
    const level = Number(supply.get("level") ?? -2);
    const most = Number(supply.get("maxcapacity") ?? -2);
    const isSheets = ["sheets", "impressions"].includes(supply.get("unit") ?? "");
    const isPct = supply.get("unit") === "percent";
    return [
      {
        part: names[i] ?? supply.get("type") ?? `part ${i + 1}`,
        sheetsLeft: isSheets && level >= 0 ? level : null,
        leftPct: isPct ? asPct(level) : most > 0 ? asPct((100 * level) / most) : null,
        ageMs: null,
      },
    ];
  });
}

/** IPP's -1, -2 and -3 are words, not levels. */
function asPct(level: number | null): number | null {
  return level !== null && level >= 0 && level <= 100 ? level : null;
}
