import { zoneOffsetMs } from "../booth/zoneOffset.ts";

/** Times and figures of a report as a person reads them, by the clock on the venue's wall. */
export type VenueFormat = {
  /** "21:15". */
  readonly clock: (atMs: number) => string;
  /** "Saturday 20 June 2026". */
  readonly day: (atMs: number) => string;
  readonly count: (n: number) => string;
  /** "5 h 56 min", "14 min", "less than a minute". */
  readonly length: (lengthMs: number) => string;
  /** "Europe/London (GMT+1)". */
  readonly zone: (atMs: number) => string;
  /** "2026-06-20T21:15:00+01:00", as in RFC 3339. */
  readonly stamp: (atMs: number) => string;
};

/** The format of one zone; `locale` undefined is the reader's device's. */
export function venueFormat(zone: string, locale?: string): VenueFormat {
  const key = `${zone} ${locale ?? ""}`;
  const known = formats.get(key) ?? makeFormat(zone, locale);
  formats.set(key, known);
  return known;
}

/** To make one takes as long as to write a page with it; there are some four hundred zones. */
const formats = new Map<string, VenueFormat>();

function makeFormat(zone: string, locale: string | undefined): VenueFormat {
  const time = new Intl.DateTimeFormat(locale, { timeZone: zone, timeStyle: "short" });
  const day = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    ...{ weekday: "long", day: "numeric", month: "long", year: "numeric" },
  });
  const number = new Intl.NumberFormat(locale);
  return {
    clock: (atMs) => time.format(atMs).replace("\u202f", " "),
    day: (atMs) => day.format(atMs).replace(",", ""),
    count: (n) => number.format(Math.round(n)),
    length: shownLength,
    zone: (atMs) => `${zone.replaceAll("_", " ")} (${offsetWord(atMs, zone)})`,
    stamp: (atMs) => {
      const local = new Date(Math.floor(atMs / 1000) * 1000 + zoneOffsetMs(atMs, zone)).toISOString();
      return `${local.slice(0, 19)}${offsetOf(atMs, zone)}`;
    },
  };
}

function shownLength(lengthMs: number): string {
  const minutes = Math.round(lengthMs / 60_000);
  if (minutes === 0) return lengthMs > 0 ? "less than a minute" : "0 min";
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  const parts = [...(hours > 0 ? [`${hours} h`] : []), ...(rest > 0 ? [`${rest} min`] : [])];
  return parts.join(" ");
}

function offsetWord(atMs: number, zone: string): string {
  const offset = offsetOf(atMs, zone);
  return offset === "+00:00" ? "GMT" : `GMT${offset.replace(/^([+-])0?(\d+):00$/, "$1$2")}`;
}

function offsetOf(atMs: number, zone: string): string {
  const minutes = Math.round(zoneOffsetMs(atMs, zone) / 60_000);
  const two = (n: number) => String(n).padStart(2, "0");
  const size = Math.abs(minutes);
  return `${minutes < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
