import { anyItem, bookingInput, knownItem, knownKinds } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";

const stamp = { seq: 1, atMs: 1_000, monoMs: 10, source: "ipp" };

describe("an item", () => {
  it("of a known kind is parsed to its fields", () => {
    const print = {
      ...stamp,
      class: "fact",
      kind: "print",
      printId: "a-1",
      copies: 2,
      pitches: 2,
      queue: null,
    };
    const basis = "layouts";
    const sized = { ...print, basis, sessionId: "s-1", size: "4x6" };
    expect(knownItem.parse(sized)).toEqual(sized);
    // Agents of before these fields counted jobs, and knew no session of theirs.
    expect(knownItem.parse(print)).toEqual({ ...print, basis: "jobs", sessionId: null, size: null });
  });

  it("of an unknown kind keeps every field", () => {
    const later = { ...stamp, class: "reading", kind: "humidityOfTheRibbon", deep: { pct: 40 } };
    expect(anyItem.parse(later)).toEqual(later);
    expect(knownKinds.has(later.kind)).toBe(false);
  });

  it("that counts is a fact, so that a full outbox can never thin it", () => {
    for (const kind of [
      "session",
      "print",
      "media",
      "printerState",
      "rollFitted",
      "correction",
      "extended",
    ]) {
      const asReading = knownItem.safeParse({ ...stamp, class: "reading", kind });
      expect(asReading.error?.issues.some((issue) => issue.path.join() === "class")).toBe(true);
    }
  });

  it("names the field that is wrong", () => {
    const wrong = knownItem.safeParse({
      ...stamp,
      class: "reading",
      kind: "inside",
      sensor: "case",
      insideC: "41",
      humidityPct: null,
    });
    expect(wrong.error?.issues[0]?.path).toEqual(["insideC"]);
  });
});

describe("a booking", () => {
  const booking = {
    boothId: "b",
    client: "Elder & Finch",
    place: "Quarry Barn",
    eventKind: "wedding",
    zone: "Europe/Berlin",
    latitudeDeg: 51,
    longitudeDeg: 9,
    openAtMs: Date.UTC(2026, 9, 24, 18),
    closeAtMs: Date.UTC(2026, 9, 25, 2, 30),
    guests: 120,
    sheetsLoaded: 400,
    spareRolls: 1,
    attendant: null,
  };

  it.each([
    ["closeAtMs", { closeAtMs: booking.openAtMs }],
    ["closeAtMs", { closeAtMs: booking.openAtMs + 49 * 3_600_000 }],
    ["zone", { zone: "Mars/Olympus" }],
    ["latitudeDeg", { latitudeDeg: 91 }],
    ["sheetsLoaded", { sheetsLoaded: -1 }],
    ["guests", { guests: 1.5 }],
    ["client", { client: "   " }],
    ["openAtMs", { openAtMs: Number.NaN }],
  ])("with a wrong %s is refused at that field", (field, change) => {
    const wrong = bookingInput.safeParse({ ...booking, ...change });
    expect(wrong.error?.issues.map((issue) => issue.path.join("."))).toContain(field);
  });

  it("over midnight and over a clock change is ordinary", () => {
    // Berlin 2026-10-24 20:00 to 03:30 = PT8H30M (tz database, computed).
    expect(bookingInput.parse(booking).closeAtMs - booking.openAtMs).toBe(8.5 * 3_600_000);
  });
});
