import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { writePlanTable } from "../../../dashboard/documents/planFiles/planTable.ts";
import { readCalendar } from "../../../dashboard/documents/planFiles/readCalendar.ts";
import { writeCalendar } from "../../../dashboard/documents/planFiles/writeCalendar.ts";
import { aBooking } from "../../support/aBooking.ts";
import { anyBooking, anyName } from "../../support/anyBooking.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { booths, does, fromCalendar, fromTable } from "../../support/planMatch.ts";

const dayMs = 24 * hourMs;

/** A calendar of one event with these lines. */
function calendar(...lines: string[]): string {
  return ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Elsewhere//EN", "BEGIN:VEVENT", "UID:1@example.com"]
    .concat("SUMMARY:Ivy Hall", lines, "END:VEVENT", "END:VCALENDAR", "")
    .join("\r\n");
}

describe("a run sheet as a calendar", () => {
  it("comes back as it was, whatever people call things", async () => {
    await fc.assert(
      fc.asyncProperty(anyBooking, async (booking) => {
        const text = writeCalendar([booking], booths, sixAtMs);
        const { bookings, problems } = await fromCalendar(text);
        expect(problems).toEqual([]);
        expect(bookings).toEqual([{ ...booking, bookingId: "new-1" }]);
        expect(does(await fromCalendar(text, [booking]))).toEqual(["same"]);
      }),
    );
  });

  it("is read by another program as the same events", async () => {
    const { default: ical } = await import("node-ical");
    const plan = [
      aBooking({ client: "Fern, Rowan; and \\ all", place: "The “Old” Barn\nat the mill" }),
      aBooking({
        bookingId: "b2",
        openAtMs: sixAtMs + dayMs,
        closeAtMs: sixAtMs + dayMs + hourMs,
        latitudeDeg: null,
      }),
    ];
    const events = Object.values(ical.sync.parseICS(writeCalendar(plan, booths, sixAtMs - dayMs))).filter(
      (each) => each?.type === "VEVENT",
    );
    expect(
      events.map((event) => ({
        ...{ uid: event.uid, client: event.summary, place: event.location },
        ...{
          openAtMs: event.start.getTime(),
          closeAtMs: event.end?.getTime(),
          madeAtMs: event.dtstamp.getTime(),
        },
      })),
    ).toEqual(
      plan.map(({ bookingId, client, place, openAtMs, closeAtMs }) => ({
        ...{ uid: `${bookingId}@boothward`, client, place, openAtMs, closeAtMs, madeAtMs: sixAtMs - dayMs },
      })),
    );
  });

  // Berlin goes back at 01:00 UTC on 2026-10-25 and forward at 01:00 UTC on 2026-03-29 (tz database).
  it.each([
    ["back", Date.UTC(2026, 9, 24, 20), 8],
    ["forward", Date.UTC(2026, 2, 28, 20), 6],
  ])(
    "keeps the length of a night on which the clocks go %s, as another program reads it",
    async (_, openAtMs, hours) => {
      const { default: ical } = await import("node-ical");
      const closeAtMs = openAtMs + hours * hourMs;
      const breaks = [{ fromAtMs: openAtMs + 4.5 * hourMs, toAtMs: openAtMs + 5.5 * hourMs }];
      const night = aBooking({ zone: "Europe/Berlin", openAtMs, closeAtMs, breaks });
      const text = writeCalendar([night], booths, sixAtMs);
      const [event] = Object.values(ical.sync.parseICS(text)).filter((each) => each?.type === "VEVENT");
      expect([event?.start.getTime(), event?.end?.getTime()]).toEqual([openAtMs, closeAtMs]);
      expect((await fromCalendar(text, [night])).rows).toMatchObject([{ does: "same" }]);
      expect((await fromTable(writePlanTable([night], booths), [night])).rows).toMatchObject([
        { does: "same" },
      ]);
      // An event that another calendar wrote by the clocks of the place has the same instants: from 22:00 to 05:00, or
      // from 21:00 to 04:00.
      const [date, opens, next, closes] =
        hours === 8
          ? ["20261024", "220000", "20261025", "050000"]
          : ["20260328", "210000", "20260329", "040000"];
      const theirs = calendar(
        `DTSTART;TZID=Europe/Berlin:${date}T${opens}`,
        `DTEND;TZID=Europe/Berlin:${next}T${closes}`,
      );
      expect((await fromCalendar(theirs)).bookings).toMatchObject([{ openAtMs, closeAtMs }]);
    },
  );

  it("leaves what another calendar cannot know, and takes its hours and its place", async () => {
    const planned = aBooking({ power: aPowerPlan(), guests: 90, printSizes: ["4x6"], zone: "Europe/Berlin" });
    const theirs = calendar(
      "DTSTART:20260620T160000Z",
      "DTEND:20260620T210000Z",
      "LOCATION:Ash Barn",
    ).replace("UID:1@example.com", `UID:${planned.bookingId}@boothward`);
    const { bookings, problems } = await fromCalendar(theirs, [planned]);
    expect(problems).toEqual([]);
    const hours = { openAtMs: Date.UTC(2026, 5, 20, 16), closeAtMs: Date.UTC(2026, 5, 20, 21) };
    expect(bookings).toEqual([{ ...planned, ...hours, client: "Ivy Hall", place: "Ash Barn" }]);
  });

  // RFC 5545 section 3.1: lines end in CRLF and have at most 75 octets without it, no character is cut in two.
  it("has lines of at most 75 octets that end in CRLF", () => {
    fc.assert(
      fc.property(anyBooking, anyName, (booking, long) => {
        const place = `${long} ${"ä€😀".repeat(12)}`.slice(0, 110).replace(/[\uD800-\uDBFF]$/, "");
        const text = writeCalendar([{ ...booking, place }], booths, sixAtMs);
        expect(text.endsWith("\r\n")).toBe(true);
        for (const line of text.split("\r\n")) {
          expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
          expect(line).not.toMatch(/[\r\n\uFFFD]/);
        }
      }),
    );
  });

  // RFC 5545 sections 3.3.5 (forms 1, 2 and 3 of DATE-TIME) and 3.8.2.5.
  it.each([
    ["UTC", ["DTSTART:20260620T160000Z", "DTEND:20260620T210000Z"], "Europe/Berlin"],
    ["floating, in the zone given", ["DTSTART:20260620T180000", "DTEND:20260620T230000"], "Europe/Berlin"],
    [
      "a zone by name",
      ["DTSTART;TZID=America/New_York:20260620T120000", "DTEND;TZID=America/New_York:20260620T170000"],
      "America/New_York",
    ],
    ["a length instead of an end", ["DTSTART:20260620T160000Z", "DURATION:PT5H"], "Europe/Berlin"],
  ])("reads times in %s", async (_, lines, zone) => {
    const { bookings, problems } = await fromCalendar(calendar(...lines));
    expect(problems).toEqual([]);
    expect(bookings).toMatchObject([
      { openAtMs: Date.UTC(2026, 5, 20, 16), closeAtMs: Date.UTC(2026, 5, 20, 21), zone, client: "Ivy Hall" },
    ]);
  });

  it("reads a zone that only the file describes", async () => {
    // The rules of RFC 5545 section 3.6.5's example, under a name of their own.
    const described = [
      "BEGIN:VTIMEZONE",
      "TZID:Eastern of the office",
      ...[
        "BEGIN:DAYLIGHT",
        "TZOFFSETFROM:-0500",
        "TZOFFSETTO:-0400",
        "TZNAME:EDT",
        "DTSTART:20070311T020000",
      ],
      ...["RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=2SU", "END:DAYLIGHT"],
      ...[
        "BEGIN:STANDARD",
        "TZOFFSETFROM:-0400",
        "TZOFFSETTO:-0500",
        "TZNAME:EST",
        "DTSTART:20071104T020000",
      ],
      ...["RRULE:FREQ=YEARLY;BYMONTH=11;BYDAY=1SU", "END:STANDARD"],
      "END:VTIMEZONE",
    ].join("\r\n");
    const lines = ["DTSTART;TZID=Eastern of the office:20260620T120000", "DURATION:PT5H"];
    const text = calendar(...lines).replace("BEGIN:VEVENT", `${described}\r\nBEGIN:VEVENT`);
    expect((await fromCalendar(text)).bookings).toMatchObject([
      { openAtMs: Date.UTC(2026, 5, 20, 16), zone: "Europe/Berlin" },
    ]);
    expect((await fromCalendar(calendar(...lines))).problems[0]?.sentence).toContain("Eastern of the office");
  });

  // The office party and the two others of RFC 5545 sections 3.6.1 and 3.8.5.3.
  it.each([
    ["whole days", ["DTSTART;VALUE=DATE:20070628", "DTEND;VALUE=DATE:20070709"], "whole days"],
    ["what repeats", ["DTSTART:20260620T160000Z", "DURATION:PT1H", "RRULE:FREQ=YEARLY;COUNT=10"], "repeats"],
    ["no end", ["DTSTART:20260620T160000Z"], "no end"],
    ["no beginning", ["DURATION:PT1H"], "no beginning"],
  ])("refuses %s in a sentence, at the line where the event begins", async (_, lines, word) => {
    const { problems, bookings } = await fromCalendar(calendar(...lines));
    expect(bookings).toEqual([]);
    expect(problems).toMatchObject([{ line: 4 }]);
    expect(problems[0]?.sentence).toContain(word);
  });

  it("leaves out an event that was called off", async () => {
    const text = calendar("DTSTART:20260620T160000Z", "DURATION:PT1H", "STATUS:CANCELLED");
    const read = await readCalendar(text, { zone: "UTC", booth: "juniper" }, []);
    expect([read.raws, read.problems, read.skipped]).toEqual([[], [], [{ line: 4, text: "Ivy Hall" }]]);
  });

  it.each(["", "nonsense", "a,b\n1,2", "BEGIN:VCALENDAR\r\nBEGIN:VEVENT", "BEGIN:VCARD\r\nEND:VCARD"])(
    "is refused when it is none: %j",
    async (text) => {
      expect((await fromCalendar(text)).problems[0]?.sentence).toBe("This is no calendar file.");
    },
  );
});
