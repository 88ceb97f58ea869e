/**
 * Times, temperatures and counts as a person reads them: in the venue's zone, in the reader's units and in
 * the way their device writes clock times. `Intl` objects are kept, as making one costs about a millisecond.
 */
export type Units = "metric" | "us";

export type Format = {
  /** Time of day, "21:25". */
  clock(atMs: number): string;
  /** Time of day without ":00", for axes: "21", "9 PM". */
  hour(atMs: number): string;
  /** "Saturday 20 June". */
  day(atMs: number): string;
  /** A length in whole minutes, "1 minute", "29 minutes", "2 hours 10 minutes". */
  minutes(lengthMs: number): string;
  /** "36.8 °C"; whole degrees with `digits` 0, which is the usual. */
  temperature(celsius: number, digits?: number): string;
  /** A difference of temperatures, "1.5 °C": without the offset of the scale. */
  degrees(celsius: number): string;
  count(n: number): string;
  /** "8 s", "29 min", "3 h", "2 days". */
  age(lengthMs: number): string;
};

/** Keeps a figure and its unit on one line. */
const hardSpace = "\u00a0";

const kept = new Map<string, Format>();

/** The format of one zone and one system of units; `locale` undefined is the device's. */
export function formatIn(zone: string, units: Units, locale?: string): Format {
  const key = `${zone} ${units} ${locale ?? ""}`;
  const found = kept.get(key) ?? makeFormat(zone, units, locale);
  kept.set(key, found);
  return found;
}

function makeFormat(zone: string, units: Units, locale: string | undefined): Format {
  const time = new Intl.DateTimeFormat(locale, { timeZone: zone, timeStyle: "short" });
  const day = new Intl.DateTimeFormat("en-GB", {
    timeZone: zone,
    weekday: "long",
    day: "numeric",
    month: "long",
  });
  const number = new Intl.NumberFormat(locale);
  const scaled = (celsius: number) => (units === "us" ? celsius * 1.8 + 32 : celsius);
  const sign = units === "us" ? "°F" : "°C";
  return {
    clock: (atMs) => time.format(atMs),
    hour: (atMs) =>
      time
        .format(atMs)
        .replace(":00", "")
        .replace(/^0(?=\d)/, ""),
    day: (atMs) => day.format(atMs).replace(",", ""),
    minutes: wordedMinutes,
    temperature: (celsius, digits = 0) => `${scaled(celsius).toFixed(digits)}${hardSpace}${sign}`,
    degrees: (celsius) => `${(units === "us" ? celsius * 1.8 : celsius).toFixed(1)}${hardSpace}${sign}`,
    count: (n) => number.format(Math.round(n)),
    age: shortAge,
  };
}

function several(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? "" : "s"}`;
}

function wordedMinutes(lengthMs: number): string {
  const minutes = Math.max(0, Math.round(lengthMs / 60_000));
  if (minutes < 90) return several(minutes, "minute");
  const rest = minutes % 60;
  return several(Math.floor(minutes / 60), "hour") + (rest === 0 ? "" : ` ${several(rest, "minute")}`);
}

function shortAge(lengthMs: number): string {
  const seconds = Math.max(0, Math.round(lengthMs / 1000));
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.floor(seconds / 60);
  if (minutes < 120) return `${minutes} min`;
  const hours = Math.floor(minutes / 60);
  return hours < 48 ? `${hours} h` : `${Math.floor(hours / 24)} days`;
}
