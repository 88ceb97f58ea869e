import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { expect, test } from "vitest";
import { parseDay } from "../../seeds/day.ts";
import { aDay, aDayBooth, aDayBooking } from "../support/aDay.ts";

const daysFolder = resolve(import.meta.dirname, "../../seeds/days");

test.each(readdirSync(daysFolder))("%s can be played and says that it is invented", (file) => {
  const day = parseDay(JSON.parse(readFileSync(join(daysFolder, file), "utf8")), file);
  expect(day.name).toMatch(/invented/i);
});

const refused = (found: unknown) => () => parseDay(found, "days/wrong.json");

test("a wrong field is named with its place and its value", () => {
  const booth = aDayBooth({ prints: { ...aDayBooth().prints, perSheetS: 3 } });
  expect(refused(aDay([booth]))).toThrow(
    "days/wrong.json is not a day that can be played:\n" +
      "  booths.0.prints.perSheetS: no printer is that fast (it is 3)",
  );
});

test("a missing field is named as missing", () => {
  const { name, booths, atOnce } = aDay();
  expect(refused({ name, booths, atOnce })).toThrow(
    "startMin: Invalid input: expected number, received undefined (it is missing)",
  );
});

test("a close before the opening, a roll over its kit, and two booths of one name are refused", () => {
  const early = aDayBooth({ booking: aDayBooking({ closeMin: -130 }) });
  expect(refused(aDay([early]))).toThrow("booths.0.booking.closeMin: must be after openMin (it is -130)");
  const full = aDayBooth({ kitSheets: 300, booking: aDayBooking({ sheetsLoaded: 400 }) });
  expect(refused(aDay([full]))).toThrow("must not be more than a full kit (it is 400)");
  expect(refused(aDay([aDayBooth(), aDayBooth()]))).toThrow("two booths have one name");
});

test("a shape whose minutes fall is refused", () => {
  const guests = {
    ...aDayBooth().guests,
    perHour: [
      [0, 10],
      [-5, 10],
    ] as [number, number][],
  };
  expect(refused(aDay([aDayBooth({ guests })]))).toThrow("its minutes must rise from point to point");
});

test("what is no day at all is refused in words", () => {
  expect(refused(null)).toThrow("the day: Invalid input: expected object, received null (it is null)");
});
