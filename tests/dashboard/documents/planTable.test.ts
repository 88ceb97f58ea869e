import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { columnOf, writePlanTable } from "../../../dashboard/documents/planFiles/planTable.ts";
import { aBooking } from "../../support/aBooking.ts";
import { anyBooking } from "../../support/anyBooking.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";
import { hourMs, sixAtMs } from "../../support/aStoredItem.ts";
import { booths, does, fromTable } from "../../support/planMatch.ts";

const dayMs = 24 * hourMs;
const head = "booth,client,kind,opens,closes";

describe("a run sheet as a table", () => {
  it("becomes bookings, times read in the zone of the row or else the one given", async () => {
    const match = await fromTable(
      `${head},time zone\njuniper,Ivy Hall,party,2026-06-20 18:00,2026-06-21 01:00,\n` +
        "THISTLE,Ivy Hall,gala,2026-06-20 18:00,2026-06-20 23:00,America/New_York\n",
    );
    expect(match.problems).toEqual([]);
    expect(match.bookings).toMatchObject([
      {
        boothId: "juniper",
        openAtMs: Date.UTC(2026, 5, 20, 16),
        closeAtMs: Date.UTC(2026, 5, 20, 23),
        spareRolls: 1,
      },
      { boothId: "thistle", openAtMs: Date.UTC(2026, 5, 20, 22), zone: "America/New_York" },
    ]);
  });

  it("says by line and column what is wrong, for every row", async () => {
    const { problems } = await fromTable(
      `${head},guests,time zone\n` +
        "Nobody,Ivy,party,2026-06-20 18:00,2026-06-20 23:00,,\n" +
        "Juniper,,party,2026-06-20 18:00,2026-06-20 23:00,,\n" +
        "Juniper,Ivy,party,20.06.2026,2026-06-20 23:00,,\n" +
        "Juniper,Ivy,party,2026-06-20 18:00,2026-06-20 17:00,,\n" +
        "Juniper,Ivy,party,2026-06-20 18:00,2026-06-20 23:00,many,\n" +
        "Juniper,Ivy,party,2026-06-20 18:00,2026-06-20 23:00,,Mars/Olympus\n",
    );
    expect(problems.map(({ line, column }) => [line, column]).sort()).toEqual([
      [2, "boothId"],
      [3, "client"],
      [4, "openAtMs"],
      [5, "closeAtMs"],
      [6, "guests"],
      [7, "zone"],
    ]);
  });

  it("clashes with the plan and within itself as a form would, and two that touch do not", async () => {
    const there = aBooking({
      client: "Fern",
      openAtMs: Date.UTC(2026, 5, 20, 18),
      closeAtMs: Date.UTC(2026, 5, 20, 20),
    });
    const { problems } = await fromTable(
      `${head}\nJuniper,Ivy,party,2026-06-20 19:00,2026-06-20 21:00\n` +
        "Thistle,Oak,party,2026-06-20 19:00,2026-06-20 21:00\n" +
        "Thistle,Elm,party,2026-06-20 20:30,2026-06-20 22:00\n" +
        "Thistle,Yew,party,2026-06-20 22:00,2026-06-20 23:00\n",
      [there],
      "UTC",
    );
    expect(problems.map(({ line, sentence }) => [line, sentence])).toEqual([
      [2, "this booth is at Fern for part of these hours"],
      [4, "this booth is at Oak for part of these hours"],
    ]);
  });

  it("is all there already when it is the download, and changes the booking of a row that was changed", async () => {
    const plan = [
      aBooking(),
      aBooking({ bookingId: "b2", openAtMs: sixAtMs + dayMs, closeAtMs: sixAtMs + dayMs + hourMs }),
    ];
    const text = writePlanTable(plan, booths);
    expect(does(await fromTable(text, plan))).toEqual(["same", "same"]);
    const changed = await fromTable(text.replace("Quarry Barn", "Ash Barn"), plan);
    expect(does(changed)).toEqual(["change", "same"]);
    expect(changed.bookings).toEqual([{ ...plan[0], place: "Ash Barn" }]);
  });

  it("finds bookings of an earlier reading that have no id in the file, and leaves what it has no column for", async () => {
    const text = `${head}\nJuniper,Ivy,party,2026-06-20 18:00,2026-06-20 23:00\n`;
    const planned = (await fromTable(text)).bookings.map((booking) => ({
      ...{ ...booking, guests: 90, power: aPowerPlan(), notes: "by the gate" },
    }));
    expect(does(await fromTable(text, planned))).toEqual(["same"]);
    const changed = await fromTable(text.replace("party", "gala"), planned);
    expect(changed.bookings).toEqual(planned.map((booking) => ({ ...booking, eventKind: "gala" })));
    const guests = text.replace(head, `${head},guests`).replace("23:00\n", "23:00,\n");
    expect((await fromTable(guests, planned)).bookings).toMatchObject([
      { guests: null, notes: "by the gate" },
    ]);
  });

  it("is refused where two rows are of one booking", async () => {
    const row = "Juniper,Ivy,party,2026-06-20 18:00,2026-06-20 23:00\n";
    const { bookings } = await fromTable(`${head}\n${row}`);
    expect((await fromTable(`${head}\n${row}${row}`, bookings)).problems).toMatchObject([
      { line: 3, sentence: "this booking is in the file twice" },
    ]);
    expect((await fromTable(`${head}\n${row}${row}`)).problems).toMatchObject([
      { line: 3, column: "openAtMs" },
    ]);
  });

  it.each([
    ["power from", "windmill", "power.source"],
    ["volts", "12", "power.volts"],
    ["cord size", "9 AWG", "power.cord.size"],
    ["loads", "printer", "power.loads"],
    ["loads", "99999 W printer", "power.loads.0.watts"],
    ["print sizes", "4x6 5x7", "printSizes.1"],
    ["breaks", "20:00 to 20:30", "breaks"],
    ["breaks", "2026-06-20 20:00", "breaks"],
    ["breaks", "2026-06-20 12:00 to 2026-06-20 12:30", "breaks"],
    ["horizon", "south", "standing.horizon"],
    ["ready by", "noon", "promisedAtMs"],
    ["ready by", "2026-06-21 18:00", "promisedAtMs"],
    ["expected high C", "95", "standing.expectedHighC"],
    ["heading", "725", "standing.headingDeg"],
  ])("says by its column that %s cannot be %s", async (column, written, path) => {
    const power = path.startsWith("power")
      ? { "power from": "mains", volts: "230", "cord m": "5", "cord size": "14 AWG" }
      : {};
    const row = { ...power, [column]: written };
    const { problems, bookings } = await fromTable(
      `${head},${Object.keys(row).join(",")}\n` +
        `Juniper,Ivy,party,2026-06-20 18:00,2026-06-20 23:00,${Object.values(row).join(",")}\n`,
    );
    expect(problems).toMatchObject([{ line: 2, column: path }]);
    expect(bookings).toEqual([]);
    expect(columnOf(path)).toBe(column);
  });

  it("lets two bookings change places without a clash", async () => {
    const early = aBooking({ bookingId: "early", openAtMs: sixAtMs, closeAtMs: sixAtMs + hourMs });
    const late = aBooking({
      bookingId: "late",
      openAtMs: sixAtMs + 2 * hourMs,
      closeAtMs: sixAtMs + 3 * hourMs,
    });
    const swapped = [
      { ...early, openAtMs: late.openAtMs, closeAtMs: late.closeAtMs },
      { ...late, openAtMs: early.openAtMs, closeAtMs: early.closeAtMs },
    ];
    const match = await fromTable(writePlanTable(swapped, booths), [early, late]);
    expect([match.problems, does(match)]).toEqual([[], ["change", "change"]]);
  });

  it("comes back as it was, whatever people call things", async () => {
    await fc.assert(
      fc.asyncProperty(anyBooking, async (booking) => {
        const { bookings, problems } = await fromTable(writePlanTable([booking], booths));
        expect(problems).toEqual([]);
        expect(bookings).toEqual([{ ...booking, bookingId: "new-1" }]);
      }),
    );
  });
});
