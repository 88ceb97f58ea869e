import { isTimeZone, type Booking, type FileProblem } from "@boothward/shared-types";
import ICAL from "ical.js";
import { DateTime } from "luxon";
import { inTurns } from "../tables/inTurns.ts";
import { planCells } from "./planCells.ts";
import type { RawBooking } from "./rawBooking.ts";
import { ownProperties, propertyOf, uidEnd } from "./writeCalendar.ts";

export type CalendarRead = {
  readonly raws: readonly RawBooking[];
  readonly problems: readonly FileProblem[];
  /** Events that were called off, by their line and name. */
  readonly skipped: readonly { readonly line: number; readonly text: string }[];
};

/** Where the times and booths of entries that name none are read. */
export type CalendarDefaults = { readonly zone: string; readonly booth: string };

type Moment = { readonly atMs: number; readonly zone: string | null };
type Wrong = { readonly sentence: string };

/** What an entry is that says nothing of its kind; any word may be written over it. */
const otherKind = "other";

const mostEvents = 50_000;

/**
 * Reads the events of a calendar as bookings: times in UTC, in a zone by its IANA name, in one that the file itself
 * describes, or floating, which are read in the zone given. An event of whole days and one that repeats are no
 * booking: it is said which, by the line at which they begin. Between events everything else goes first.
 *
 * Source: RFC 5545 sections 3.3.5, 3.6.1, 3.8.2.
 */
export async function readCalendar(
  text: string,
  defaults: CalendarDefaults,
  known: readonly Booking[],
): Promise<CalendarRead> {
  const calendars = calendarsIn(text);
  if (calendars === null)
    return { raws: [], skipped: [], problems: [problemAt(1, null, "This is no calendar file.")] };
  const lines = beginnings(text);
  const events = calendars
    .flatMap((calendar) => calendar.getAllSubcomponents("vevent").map((event) => ({ calendar, event })))
    .map((each, at) => ({ ...each, line: lines[at] ?? 1 }));
  if (events.length > mostEvents)
    return {
      raws: [],
      skipped: [],
      problems: [problemAt(1, null, `There are more than ${mostEvents} events.`)],
    };
  const byId = new Map(known.map((booking) => [booking.bookingId, booking]));
  const raws: RawBooking[] = [];
  const problems: FileProblem[] = [];
  const skipped: { line: number; text: string }[] = [];
  await inTurns(events, ({ calendar, event, line }) => {
    if (textOf(event, "status").toUpperCase() === "CANCELLED")
      return skipped.push({ line, text: textOf(event, "summary") });
    const hours = hoursOf(event, calendar, defaults.zone);
    if ("sentence" in hours) return problems.push(problemAt(line, "openAtMs", hours.sentence));
    const read = rawOf(event, line, hours, defaults, byId);
    return "raw" in read ? raws.push(read.raw) : problems.push(read.problem);
  });
  return { raws, problems, skipped };
}

function calendarsIn(text: string): ICAL.Component[] | null {
  try {
    const parsed = ICAL.parse(text.replace(/^\uFEFF/, "")) as unknown[];
    const several = Array.isArray(parsed[0]) ? (parsed as unknown[][]) : [parsed];
    const calendars = several.map(
      (jCal) => new ICAL.Component(jCal as ConstructorParameters<typeof ICAL.Component>[0]),
    );
    return calendars.length > 0 && calendars.every(({ name }) => name === "vcalendar") ? calendars : null;
  } catch {
    return null;
  }
}

/** The lines at which events begin, in their order. */
function beginnings(text: string): number[] {
  return text.split(/\r\n|\n|\r/).flatMap((line, at) => (/^BEGIN:VEVENT\s*$/i.test(line) ? [at + 1] : []));
}

function hoursOf(
  event: ICAL.Component,
  calendar: ICAL.Component,
  zone: string,
): { readonly open: Moment; readonly closeAtMs: number } | Wrong {
  if (["rrule", "rdate", "recurrence-id"].some((name) => event.getFirstProperty(name) !== null))
    return { sentence: "this event repeats: write each of its evenings as an event of its own" };
  const start = event.getFirstProperty("dtstart");
  if (start === null) return { sentence: "this event has no beginning" };
  const open = momentOf(start, calendar, zone);
  if ("sentence" in open) return open;
  const end = event.getFirstProperty("dtend");
  const duration: unknown = event.getFirstPropertyValue("duration");
  if (end !== null) {
    const close = momentOf(end, calendar, zone);
    return "sentence" in close ? close : { open, closeAtMs: close.atMs };
  }
  if (!(duration instanceof ICAL.Duration)) return { sentence: "this event has no end and no length" };
  return { open, closeAtMs: open.atMs + duration.toSeconds() * 1000 };
}

function momentOf(property: ICAL.Property, calendar: ICAL.Component, zone: string): Moment | Wrong {
  const time: unknown = property.getFirstValue();
  if (!(time instanceof ICAL.Time)) return { sentence: "its time cannot be read" };
  if (time.isDate)
    return { sentence: "this event takes whole days: a booking has hours at which it opens and closes" };
  const tzid: unknown = property.getFirstParameter("tzid");
  if (typeof tzid !== "string" || tzid === "") {
    if (time.zone === ICAL.Timezone.utcTimezone) return { atMs: time.toUnixTime() * 1000, zone: null };
    return { atMs: inZone(time, zone), zone };
  }
  if (isTimeZone(tzid)) return { atMs: inZone(time, tzid), zone: tzid };
  const described = calendar
    .getAllSubcomponents("vtimezone")
    .find((each) => each.getFirstPropertyValue("tzid") === tzid);
  if (described === undefined)
    return { sentence: `${tzid} is no time zone that is known, and the file does not describe it` };
  const there = time.clone();
  there.zone = new ICAL.Timezone({ component: described, tzid });
  return { atMs: there.toUnixTime() * 1000, zone: null };
}

/** Wall-clock time in a zone; of an hour that comes twice the first (RFC 5545 section 3.3.5). */
function inZone({ year, month, day, hour, minute, second }: ICAL.Time, zone: string): number {
  const there = DateTime.fromObject({ year, month, day, hour, minute, second }, { zone });
  return Math.min(...there.getPossibleOffsets().map((each) => each.toMillis()));
}

function rawOf(
  event: ICAL.Component,
  line: number,
  { open, closeAtMs }: { readonly open: Moment; readonly closeAtMs: number },
  defaults: CalendarDefaults,
  known: ReadonlyMap<string, Booking>,
): { readonly raw: RawBooking } | { readonly problem: FileProblem } {
  const uid = textOf(event, "uid");
  const bookingId = uid.endsWith(uidEnd) ? uid.slice(0, -uidEnd.length) : null;
  const before = bookingId === null ? null : (known.get(bookingId) ?? null);
  const booth = textOf(event, ownProperties.booth);
  const ownZone = textOf(event, ownProperties.zone);
  const zone = ownZone === "" ? (open.zone ?? before?.zone ?? defaults.zone) : ownZone;
  if (!isTimeZone(zone)) return { problem: problemAt(line, "zone", `${zone} is not a time zone`) };
  const kind = textOf(event, "categories");
  const fields: Record<string, unknown> = {
    ...{ client: textOf(event, "summary"), place: textOf(event, "location") },
    ...{ eventKind: kind === "" ? (before?.eventKind ?? otherKind) : kind, zone },
    ...{ openAtMs: open.atMs, closeAtMs, ...placeOf(event), notes: textOf(event, "description") },
  };
  // A calendar that knows nothing of these leaves them as they are.
  for (const { column, path, read } of booth === "" ? [] : planCells) {
    const its = read(textOf(event, propertyOf(column)), zone);
    if ("sentence" in its) return { problem: problemAt(line, path, its.sentence) };
    fields[path] = its.said;
  }
  return {
    raw: { line, bookingId, booth: booth === "" ? (before?.boothId ?? defaults.booth) : booth, fields },
  };
}

function placeOf(event: ICAL.Component): { latitudeDeg?: number; longitudeDeg?: number } {
  const geo: unknown = event.getFirstPropertyValue("geo");
  if (!Array.isArray(geo)) return {};
  const [latitudeDeg, longitudeDeg] = geo.map(Number);
  return latitudeDeg === undefined || longitudeDeg === undefined ? {} : { latitudeDeg, longitudeDeg };
}

function textOf(component: ICAL.Component, name: string): string {
  const found: unknown = component.getFirstPropertyValue(name);
  return typeof found === "string" ? found.trim() : "";
}

function problemAt(line: number, column: string | null, sentence: string): FileProblem {
  return { line, column, sentence };
}
