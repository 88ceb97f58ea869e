import { deflateSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { readLogo } from "../../../dashboard/documents/logo.ts";
import { reportPdf, type Business } from "../../../dashboard/documents/reportPdf.ts";
import { aClientReport } from "../../support/aReport.ts";
import { aPng } from "../../support/aPng.ts";
import { hourMs, minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { readPdf } from "../../support/readPdf.ts";

const business: Business = { name: "Hobnail and Daughters", logo: null, paper: "a4" };
const printed = async (report = aClientReport(), over: Partial<Business> = {}) => {
  const bytes = await reportPdf(report, { ...business, ...over }, report.throughAtMs);
  return { bytes, ...(await readPdf(bytes)) };
};

describe("the printed report", () => {
  it("is one A4 page with the figures, the busiest quarter-hour, the hours, the pauses and the zone", async () => {
    const { pages, sizePt, text, title, language } = await printed();
    expect(pages).toBe(1);
    // ISO 216: A4 is 210 by 297 mm; a point is 1/72 inch.
    expect(sizePt.map(Math.round)).toEqual([595, 842]);
    for (const said of [
      "Your guests stepped into the booth 204 times and took home 408 prints.",
      "4 h 47 min",
      "ready of 5 h promised",
      "Busiest: 17 sessions between 23:15 and 23:30.",
      "19:00 to 20:00",
      "22:20 to 22:29 (9 min)",
      "the paper was changed",
      "not known, nothing was heard from the booth",
      "Times are those of Europe/London (GMT+1).",
      "Hobnail and Daughters",
    ])
      expect(text).toContain(said);
    expect(title).toBe("Edda and Rowan, Saturday 20 June 2026");
    expect(language).toBe("en-GB");
  });

  it("is as wide and high as US Letter, with its times of day, when the business prints on that", async () => {
    const { sizePt, text } = await printed(aClientReport(), { paper: "letter" });
    // ANSI/ASME Y14.1: 8.5 by 11 inches.
    expect(sizePt).toEqual([612, 792]);
    expect(text).toContain("11:15 PM");
  });

  it.each([
    "Žofia & Łukasz",
    "Zoë Müller-Lüdenscheidt",
    "Ελένη Παπαδοπούλου",
    "Наталія Ґаленко",
    "Đặng Thị Hương",
  ])("prints the name %s letter by letter", async (client) => {
    expect((await printed(aClientReport({ client }))).text).toContain(`${client}, wedding`);
  });

  it("prints a question mark where it cannot print a letter", async () => {
    expect((await printed(aClientReport({ client: "Ama 愛" }))).text).toContain("Ama ?, wedding");
  });

  it("is made of the same bytes each time", async () => {
    const logo = logoOf(aPng(120, 40));
    const [one, other] = [await printed(aClientReport(), { logo }), await printed(aClientReport(), { logo })];
    expect(one.bytes.equals(other.bytes)).toBe(true);
  });

  it("stays one page with the longest names, two days of hours, twenty pauses and a logo", async () => {
    const quarters = Array.from({ length: 192 }, (_, at) => ({
      ...{ atMs: sixAtMs + at * 15 * minuteMs, sessions: at % 17, prints: 20, sheets: null },
    }));
    const pauses = Array.from({ length: 20 }, (_, at) => ({
      ...{ fromAtMs: sixAtMs + at * hourMs, toAtMs: sixAtMs + at * hourMs + 3 * minuteMs },
      ...{ why: "stopped" as const, reason: "media-jam" },
    }));
    const long = (length: number) => "Wolkenstein ".repeat(20).slice(0, length).trim();
    const report = aClientReport({
      ...{ client: long(120), place: long(120), eventKind: long(40), boothName: long(60), quarters, pauses },
      closeAtMs: sixAtMs + 48 * hourMs,
    });
    const over = { name: long(80), logo: logoOf(aPng(4, 3_000)) };
    for (const paper of ["a4", "letter"] as const) {
      const { pages, text } = await printed(report, { ...over, paper });
      expect(pages).toBe(1);
      expect(text).toMatch(/And \d+ pauses more, \d+ min in all\./);
      expect(text).toContain("Counted at the booth itself");
    }
  });

  it("says what was corrected, what is not known, and of which hours", async () => {
    const { text } = await printed(
      aClientReport({
        corrected: ["sessions"],
        figures: { sessions: 210, prints: null, sheets: null, reprints: null, digitalOnly: null },
      }),
    );
    expect(text).toContain("Your guests stepped into the booth 210 times.");
    expect(text).toContain("sessions (corrected)");
    expect(text).toContain("not known");
  });

  it("says of an evening on which the clocks go back that its lengths are true lengths", async () => {
    // Berlin, 24 to 25 October 2026, 20:00 to 03:30: 8 h 30 min (tz database, computed independently).
    const openAtMs = Date.parse("2026-10-24T20:00:00+02:00");
    const closeAtMs = Date.parse("2026-10-25T03:30:00+01:00");
    const lengthMs = closeAtMs - openAtMs;
    const quarters = Array.from({ length: 34 }, (_, at) => ({
      ...{ atMs: openAtMs + at * 15 * minuteMs, sessions: 1, prints: 2, sheets: 2 },
    }));
    const time = {
      ...aClientReport().time,
      ...{ bookedMs: lengthMs, promisedMs: lengthMs, readyMs: lengthMs, unknownMs: 0, stoppedMs: 0 },
    };
    const { text } = await printed(
      aClientReport({ zone: "Europe/Berlin", openAtMs, closeAtMs, quarters, time, pauses: [] }),
    );
    expect(text).toContain("8 h 30 min");
    expect(text).toContain("The clocks went back during this event");
    expect(text).toContain("02:00 +02:00 to 02:00 +01:00");
    expect(text).toContain("02:00 +01:00 to 03:00 +01:00");
  });
});

function logoOf(png: Buffer) {
  const logo = readLogo(png.toString("base64"));
  if ("sentence" in logo) throw new Error(logo.sentence);
  return logo;
}

describe("a logo", () => {
  const sentence = (bytes: Buffer) => {
    const read = readLogo(bytes.toString("base64"));
    return "sentence" in read ? read.sentence : `${read.type} ${read.widthPx} x ${read.heightPx}`;
  };

  it("is a PNG or a JPEG by its first bytes, of a size that is read from it", () => {
    expect(sentence(aPng(120, 40))).toBe("image/png 120 x 40");
    // ITU-T T.81 annex B: SOI, a quantisation table of no use here, SOF0 with height and width.
    const jpeg = Buffer.from("ffd8ffdb0003000ffc0".padEnd(20, "0"), "hex");
    expect(sentence(jpeg)).toContain("broken off");
    const frame = Buffer.from("ffd8ffdb000300ffc0000b080028007801011100ffd9", "hex");
    expect(sentence(frame)).toBe("image/jpeg 120 x 40");
  });

  it("that is no picture, too large or damaged is refused in a sentence", () => {
    expect(sentence(Buffer.from("<svg onload='x'/>"))).toBe("logo: it is neither a PNG nor a JPEG picture.");
    expect(sentence(Buffer.from("GIF89a....."))).toBe("logo: it is neither a PNG nor a JPEG picture.");
    expect(sentence(Buffer.alloc(0))).toBe("logo: it is empty.");
    expect(sentence(Buffer.alloc(512 * 1024 + 1, 0x89))).toBe(
      "logo: it is larger than 512 kB; make it smaller.",
    );
    expect(sentence(aPng(4_001, 1))).toBe("logo: it is 4001 by 1 pixels; 4000 by 4000 are the most.");
    expect(sentence(aPng(10, 10).subarray(0, 40))).toContain("broken off");
    expect(sentence(aPng(10, 10, deflateSync(Buffer.alloc(5))))).toBe(
      "logo: it is a PNG picture that is damaged.",
    );
    expect(sentence(aPng(10, 10, Buffer.from("not packed")))).toBe(
      "logo: it is a PNG picture that is damaged.",
    );
  });

  it("that unpacks to more than its size says is refused without unpacking it all", () => {
    expect(sentence(aPng(10, 10, deflateSync(Buffer.alloc(1024 * 1024))))).toContain("damaged");
  });
});
