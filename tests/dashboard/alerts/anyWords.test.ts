import { faultWord, matter, printSize, type AlertView, type Matter } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { mostNoticeLength, noticeText } from "../../../dashboard/alerts/noticeText.ts";
import { shortName } from "../../../dashboard/alerts/telling.ts";
import { alertWords } from "../../../dashboard/alerts/words.ts";
import { minuteMs, sixAtMs } from "../../support/aStoredItem.ts";
import { rfc8011Reasons } from "../../support/rfc8011Reasons.ts";
import { aToldAlert, plainFormat, readAtMs } from "../../support/wordsOf.ts";

describe("whatever the alert", () => {
  const orNull = <T>(known: fc.Arbitrary<T>) => fc.option(known);
  const instant = fc.integer({ min: 0, max: 600 }).map((minute) => sixAtMs + minute * minuteMs);
  const keyword = fc.oneof(
    fc.constantFrom(...rfc8011Reasons, "no-sheet-finished"),
    fc.stringMatching(/^[a-z-]{1,120}$/),
  );
  const anyAlert = fc.record({
    matter: fc.constantFrom<Matter>(...matter.options),
    severity: fc.constantFrom("actNow", "plan", "note" as const),
    byAtMs: orNull(instant),
    reasons: fc.array(keyword, { maxLength: 4 }),
    sheetsLeft: orNull(fc.nat(700)),
    emptyAtMs: orNull(instant),
    spareRolls: orNull(fc.nat(5)),
    queuedJobs: orNull(fc.nat(40)),
    insideC: orNull(fc.integer({ min: 30, max: 60 })),
    limitC: orNull(fc.constant(40)),
    rollsNeeded: orNull(fc.nat(9)),
    question: orNull(
      fc.record({ ask: fc.constantFrom("fitted", "left"), atMs: instant, sheets: orNull(fc.nat(700)) }),
    ),
    difference: orNull(
      fc.record({
        ...{ quantity: fc.constantFrom("sessions", "pitches"), counted: fc.nat(900), other: fc.nat(900) },
        ...{ otherBy: fc.constantFrom("hook", "layouts", "jobs", "counter"), sinceAtMs: instant },
      }),
    ),
    crossChance60: orNull(fc.double({ min: 0, max: 1, noNaN: true })),
    untilAtMs: orNull(instant),
    fault: orNull(fc.constantFrom(...faultWord.options)),
    partName: orNull(fc.string({ maxLength: 200 })),
    caseC: orNull(fc.integer({ min: -20, max: 30 })),
    dewPointC: orNull(fc.integer({ min: -20, max: 30 })),
    waitMin: orNull(fc.nat(300)),
    heatIndexC: orNull(fc.integer({ min: 30, max: 70 })),
    feelsC: orNull(fc.integer({ min: 30, max: 80 })),
    batteryPct: orNull(fc.nat(100)),
    batteryMin: orNull(fc.nat(900)),
    diskFreeMb: orNull(fc.nat(20_000)),
    diskNeededMb: orNull(fc.nat(20_000)),
    clockOffMs: orNull(fc.integer({ min: -1e11, max: 1e11 })),
    sessionsExpected: orNull(fc.nat(90)),
    sessionsCounted: orNull(fc.nat(90)),
    printSize: orNull(fc.constantFrom("4x6", "2x6", "6x8", "5x7", "8.3x11.7")),
    printSizes: fc.subarray([...printSize.options]),
    sleepsAfterMin: orNull(fc.integer({ min: 1, max: 300 })),
  }) as fc.Arbitrary<Partial<AlertView>>;
  /** Clock times as a reader of either habit has them. */
  const anyFormat = fc.constantFrom(plainFormat, {
    ...plainFormat,
    clock: (atMs: number) => `${plainFormat.clock(atMs)} PM`,
  });
  const anyName = fc
    .oneof(
      fc.string({ minLength: 1, maxLength: 80 }),
      fc.string({ unit: "grapheme", minLength: 1, maxLength: 80 }),
      fc
        .array(fc.constantFrom("👩‍👩‍👧‍👦", "🎞️", "Ä", " "), { minLength: 1, maxLength: 40 })
        .map((all) => all.join("")),
    )
    // A booth's name is trimmed and not empty before it is stored.
    .filter((name) => name.trim() === name && name !== "");

  it("the headline names the booth, fits 110 characters, and nothing shouts or says null", () => {
    fc.assert(
      fc.property(anyAlert, anyName, fc.boolean(), anyFormat, (over, name, isTrailer, its) => {
        const words = alertWords(aToldAlert(over), name, isTrailer, readAtMs, its);
        expect(words.headline.length).toBeLessThanOrEqual(110);
        expect(words.headline).toContain(shortName(name, 30).replace(/…$/, ""));
        expect(words.chip).toMatch(/^(Stopped|Silent|Now|Soon|Note|Check|Counts|By \d\d:\d\d( PM)?)$/);
        const isNamed = over.partName != null && over.partName !== "";
        const told = [words.headline, words.doNow, isNamed ? "" : words.detail]
          .join(" ")
          .replaceAll(name, "");
        expect(told).not.toMatch(/null|undefined|NaN/);
        expect(`${words.doNow}${isNamed ? "" : words.detail}`).not.toContain("!");
        for (const text of [words.headline, words.doNow, words.detail]) expect(text).toMatch(/\S[.?]$/);
      }),
      { numRuns: 1000 },
    );
  });

  it("a notice is of at most 110 characters, the booth first, and says the one thing to do", () => {
    fc.assert(
      fc.property(anyAlert, anyName, fc.boolean(), anyFormat, (over, name, isTrailer, its) => {
        const alert = aToldAlert(over);
        const text = noticeText(alert, name, isTrailer, readAtMs, its);
        expect(text.length).toBeLessThanOrEqual(mostNoticeLength);
        const { doNow } = alertWords(alert, name, isTrailer, readAtMs, its);
        expect(text.toLowerCase()).toContain(doNow.toLowerCase().replace(/\.$/, ""));
        expect(text.startsWith(shortName(name, 8).replace(/…$/, ""))).toBe(true);
        // A half of a surrogate pair cannot be encoded.
        expect(() => encodeURIComponent(text)).not.toThrow();
      }),
      { numRuns: 1000 },
    );
  });
});
