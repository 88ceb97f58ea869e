import type { Readiness } from "@boothward/shared-types";
import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  bookingWindows,
  isOpenAt,
  presentBooking,
  type BookingFacts,
} from "../../../dashboard/booth/bookingWindows.ts";
import { aBookedTime, aBooking } from "../../support/aBooking.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";

const at = (hour: number) => sixAtMs + hour * hourMs;

/** A booking open from one hour after 18:00 to another. */
function booked(bookingId: string, openHour: number, closeHour: number) {
  return aBooking({ bookingId, openAtMs: at(openHour), closeAtMs: at(closeHour) });
}

function factsOf(...changes: (readonly [hour: number, to: Readiness])[]): BookingFacts {
  return { readiness: changes.map(([hour, to]) => ({ atMs: at(hour), to })), extensions: [] };
}

/** Windows as "name from-to" in hours after 18:00. */
function windowsIn(bookings: ReturnType<typeof booked>[], facts: BookingFacts = factsOf()): string[] {
  const hour = (atMs: number) =>
    Number.isFinite(atMs) ? (atMs - sixAtMs) / hourMs : atMs > 0 ? "end" : "start";
  return bookingWindows(bookings, facts).map(
    ({ booking, fromAtMs, toAtMs }) =>
      `${booking?.bookingId ?? "unplanned"} ${hour(fromAtMs)} to ${hour(toAtMs)}`,
  );
}

const saturday = booked("sat", 0, 5);
const sunday = booked("sun", 20, 24);

describe("what belongs to a booking", () => {
  it("runs from packed to packed down, and the rest is unplanned", () => {
    expect(windowsIn([saturday], factsOf([-3, "packed"], [0, "open"], [6, "packedDown"]))).toEqual([
      "unplanned start to -3",
      "sat -3 to 6",
      "unplanned 6 to end",
    ]);
  });

  it("begins at the pack-down before when nobody said that they packed", () => {
    expect(
      windowsIn([saturday, sunday], factsOf([-3, "packed"], [6, "packedDown"], [25, "packedDown"])),
    ).toEqual(["unplanned start to -3", "sat -3 to 6", "sun 6 to 25", "unplanned 25 to end"]);
  });

  it("leaves what lies between a pack-down and the next packing unplanned", () => {
    expect(windowsIn([saturday, sunday], factsOf([6, "packedDown"], [17, "packed"]))).toEqual([
      "unplanned start to -12",
      "sat -12 to 6",
      "unplanned 6 to 17",
      "sun 17 to 36",
      "unplanned 36 to end",
    ]);
  });

  it("ends at the next set-up without a pack-down", () => {
    expect(windowsIn([saturday, sunday], factsOf([18, "onSite"]))).toEqual([
      "unplanned start to -12",
      "sat -12 to 18",
      "sun 18 to 36",
      "unplanned 36 to end",
    ]);
  });

  it("meets the next in the middle of the gap when nothing was said", () => {
    expect(windowsIn([sunday, saturday])).toEqual([
      "unplanned start to -12",
      "sat -12 to 12.5",
      "sun 12.5 to 36",
      "unplanned 36 to end",
    ]);
  });

  it("ends early when they packed down before the planned close", () => {
    expect(windowsIn([saturday], factsOf([3, "packedDown"]))).toContain("sat -12 to 3");
  });

  it("is taken over by a booking that opens before it closes", () => {
    expect(windowsIn([saturday, booked("late", 4, 8)])).toEqual([
      "unplanned start to -12",
      "sat -12 to 4",
      "late 4 to 20",
      "unplanned 20 to end",
    ]);
  });

  it("is everything unplanned without bookings", () => {
    expect(windowsIn([])).toEqual(["unplanned start to end"]);
  });

  it("changes with the plan alone", () => {
    const facts = factsOf([-3, "packed"], [6, "packedDown"]);
    const moved = booked("sat", 24, 29);
    expect(presentBooking([saturday], facts, at(1))?.bookingId).toBe("sat");
    expect(presentBooking([moved], facts, at(1))).toBeNull();
  });
});

describe("an extension", () => {
  const extended: BookingFacts = {
    readiness: [],
    extensions: [
      { atMs: at(4), bookingId: "sat", closeAtMs: at(6) },
      { atMs: at(5), bookingId: "sat", closeAtMs: at(7) },
      { atMs: at(5.5), bookingId: "other", closeAtMs: at(9) },
    ],
  };

  it("moves the close, the last one said, of its own booking", () => {
    expect(presentBooking([saturday], extended, at(5.5))?.closeAtMs).toBe(at(7));
    expect(windowsIn([saturday, sunday], extended)).toContain("sat -12 to 13.5");
  });

  it("to before the opening is no extension", () => {
    const senseless = { readiness: [], extensions: [{ atMs: at(1), bookingId: "sat", closeAtMs: at(-1) }] };
    expect(presentBooking([saturday], senseless, at(1))?.closeAtMs).toBe(at(5));
  });
});

describe("open hours", () => {
  it("run over midnight like any other", () => {
    const overnight = aBookedTime({ openAtMs: at(4), closeAtMs: at(9) });
    expect([3.9, 4, 8.9, 9].map((hour) => isOpenAt(overnight, at(hour)))).toEqual([false, true, true, false]);
  });

  it("are over when they packed down", () => {
    const packed = presentBooking([saturday], factsOf([3, "packedDown"]), at(2.9));
    expect(packed !== null && [isOpenAt(packed, at(2.9)), isOpenAt(packed, at(3))]).toEqual([true, false]);
  });
});

describe("whatever the plan and the facts", () => {
  const anyBookings = fc
    .array(fc.tuple(fc.integer({ min: -40, max: 200 }), fc.integer({ min: 1, max: 14 })), { maxLength: 6 })
    .map((hours) => hours.map(([open, length], index) => booked(`b${index}`, open, open + length)));
  const words = fc.constantFrom<Readiness>("packed", "onSite", "powered", "open", "closing", "packedDown");
  const anyFacts = fc.record({
    readiness: fc
      .array(fc.record({ atMs: fc.integer({ min: -50, max: 220 }).map(at), to: words }), { maxLength: 12 })
      .map((changes) => changes.sort((a, b) => a.atMs - b.atMs)),
    extensions: fc.array(
      fc.record({
        atMs: fc.constant(at(0)),
        bookingId: fc.constantFrom("b0", "b1", "b2"),
        closeAtMs: fc.integer({ min: -40, max: 220 }).map(at),
      }),
      { maxLength: 3 },
    ),
  });

  it("gives every instant to exactly one window, in order, without gaps", () => {
    fc.assert(
      fc.property(anyBookings, anyFacts, (bookings, facts) => {
        const windows = bookingWindows(bookings, facts);
        expect(windows[0]?.fromAtMs).toBe(-Infinity);
        expect(windows.at(-1)?.toAtMs).toBe(Infinity);
        windows.forEach((window, index) => {
          expect(window.toAtMs).toBeGreaterThan(window.fromAtMs);
          if (index > 0) expect(window.fromAtMs).toBe(windows[index - 1]?.toAtMs);
        });
        const named = windows.flatMap(({ booking }) => booking?.bookingId ?? []);
        expect(new Set(named).size).toBe(named.length);
      }),
    );
  });

  it("gives a booking its own opening, unless another opens at once or they packed down before", () => {
    fc.assert(
      fc.property(anyBookings, anyFacts, (bookings, facts) => {
        const quiet = { ...facts, readiness: facts.readiness.filter(({ to }) => to !== "packedDown") };
        for (const booking of bookings) {
          const present = presentBooking(bookings, quiet, booking.openAtMs);
          expect(present?.openAtMs).toBe(booking.openAtMs);
        }
      }),
    );
  });

  it("does not depend on the order in which bookings are listed", () => {
    fc.assert(
      fc.property(anyBookings, anyFacts, (bookings, facts) => {
        expect(bookingWindows([...bookings].reverse(), facts)).toEqual(bookingWindows(bookings, facts));
      }),
    );
  });
});
