import { bookingInput, nothingPlanned } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { bookingBody } from "../../../dashboard/web/parts/bookingBody.ts";
import { aPowerPlan } from "../../support/aPowerPlan.ts";

function written(over: Record<string, string> = {}) {
  const fields: Record<string, string> = {
    boothId: "juniper",
    client: "Fern and Rowan",
    place: "Quarry Barn",
    eventKind: "wedding",
    zone: "Europe/Berlin",
    date: "2026-06-20",
    openAtMs: "19:00",
    closeAtMs: "23:30",
    spareRolls: "1",
    ...over,
  };
  const text = (name: string) => fields[name] ?? "";
  return {
    text,
    has: (name: string) => name in fields,
    textOrNull: (name: string) => (text(name) === "" ? null : text(name)),
    number: (name: string) => {
      if (text(name) === "") return null;
      return Number.isNaN(Number(text(name))) ? text(name) : Number(text(name));
    },
  };
}

describe("the body of a booking", () => {
  it("reads the hours in the zone of the place and fits the shared schema", () => {
    const body = bookingBody(written());
    expect(body.openAtMs).toBe(Date.UTC(2026, 5, 20, 17, 0));
    expect(body.closeAtMs).toBe(Date.UTC(2026, 5, 20, 21, 30));
    expect(bookingInput.safeParse(body).success).toBe(true);
  });

  it("puts a close that is not after the opening on the next day", () => {
    const body = bookingBody(written({ closeAtMs: "02:00" }));
    expect(body.closeAtMs).toBe(Date.UTC(2026, 5, 21, 0, 0));
  });

  it("leaves what is empty unknown, and spares at none", () => {
    const body = bookingBody(written({ spareRolls: "" }));
    expect(body).toMatchObject({ guests: null, sheetsLoaded: null, attendant: null, spareRolls: 0 });
  });

  it("reads the heading and the day's high, in the reader's units, and keeps the horizon", () => {
    const horizon = [{ azimuthDeg: 250, elevationDeg: 12 }];
    const fields = { "standing.headingDeg": "284", "standing.expectedHighC": "95" };
    const { standing } = bookingBody(written(fields), { horizon, units: "us", plan: null });
    expect(standing).toEqual({ headingDeg: 284, horizon, expectedHighC: 35 });
    expect(bookingBody(written()).standing).toEqual({ headingDeg: null, horizon: [], expectedHighC: null });
  });

  it("lets the dashboard refuse a heading of 725 degrees by its name", () => {
    const read = bookingInput.safeParse(bookingBody(written({ "standing.headingDeg": "725" })));
    expect(read.error?.issues.map((issue) => issue.path.join("."))).toEqual(["standing.headingDeg"]);
  });

  it.each([
    ["zone", { zone: "Nowhere/Town" }],
    ["openAtMs", { openAtMs: "soon" }],
    ["guests", { guests: "many" }],
  ])("lets the dashboard refuse a wrong %s by its name", (field, over) => {
    const read = bookingInput.safeParse(bookingBody(written(over)));
    expect(read.error?.issues.map((issue) => issue.path[0])).toContain(field);
  });

  const more = (over: Record<string, string> = {}) =>
    bookingInput.parse(bookingBody(written({ printsPerSession: "2", ...over })));

  it("keeps what the longer form has not asked for, and clears what was emptied in it", () => {
    const plan = { ...nothingPlanned, printsPerSession: 3, notes: "by the gate", power: aPowerPlan() };
    const kept = { horizon: [], units: "metric" as const, plan };
    expect(bookingBody(written(), kept)).toMatchObject(plan);
    expect(bookingBody(written({ printsPerSession: "" }), kept)).toMatchObject({
      ...{ printsPerSession: null, notes: "", power: null },
    });
  });

  it("reads sizes, breaks after midnight and a promise before it, by the clock of the place", () => {
    const body = more({
      ...{ openAtMs: "22:00", closeAtMs: "03:00", "printSize.2x6": "on", promisedAtMs: "21:30" },
      ...{ "break.0.from": "23:30", "break.0.to": "00:15", "break.2.from": "01:00", "break.2.to": "01:20" },
    });
    expect(body.printSizes).toEqual(["2x6"]);
    expect(body.promisedAtMs).toBe(Date.UTC(2026, 5, 20, 19, 30));
    expect(body.breaks).toEqual([
      { fromAtMs: Date.UTC(2026, 5, 20, 21, 30), toAtMs: Date.UTC(2026, 5, 20, 22, 15) },
      { fromAtMs: Date.UTC(2026, 5, 20, 23, 0), toAtMs: Date.UTC(2026, 5, 20, 23, 20) },
    ]);
    // Doors after midnight: what was promised for the evening is on the day before.
    const night = more({ openAtMs: "00:30", closeAtMs: "04:00", promisedAtMs: "23:45" });
    expect(night.openAtMs - (night.promisedAtMs ?? NaN)).toBe(45 * 60_000);
  });

  it("counts a break across a change of the clock in real minutes", () => {
    // Berlin 2026-10-25: 02:30 comes twice, the first is taken; to 03:30 are two hours (tz database).
    const over = { date: "2026-10-24", openAtMs: "20:00", closeAtMs: "05:00" };
    const [pause] = more({ ...over, "break.0.from": "02:30", "break.0.to": "03:30" }).breaks;
    expect((pause?.toAtMs ?? NaN) - (pause?.fromAtMs ?? NaN)).toBe(2 * 3_600_000);
  });

  it("reads the power in the reader's lengths, and leaves out what has no watts", () => {
    const fields = {
      ...{ printsPerSession: "", "power.source": "mains", "power.volts": "120", "power.breakerA": "20" },
      ...{ "power.cord.lengthM": "100", "power.cord.size": "14 AWG" },
      ...{ "load.0.what": "Printer", "load.0.watts": "400", "load.1.what": "Lights", "load.3.watts": "90" },
    };
    const kept = { horizon: [], units: "us" as const, plan: null };
    expect(bookingInput.parse(bookingBody(written(fields), kept)).power).toEqual({
      ...{ source: "mains", volts: 120, breakerA: 20, batteryWh: null },
      cord: { lengthM: 30.48, size: "14 AWG" },
      loads: [
        { what: "Printer", watts: 400 },
        { what: "?", watts: 90 },
      ],
    });
  });

  it.each([
    ["power", { "power.source": "mains", "power.volts": "many" }],
    ["breaks", { "break.0.from": "20:00", "break.0.to": "19:30" }],
    ["printsPerSession", { printsPerSession: "0" }],
    ["travelMin", { travelMin: "1.5" }],
  ])("lets the dashboard refuse a wrong %s by its name", (field, over) => {
    const read = bookingInput.safeParse(bookingBody(written({ printsPerSession: "", ...over })));
    expect(read.error?.issues.map((issue) => issue.path[0])).toContain(field);
  });
});
