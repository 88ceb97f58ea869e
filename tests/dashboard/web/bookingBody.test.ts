import { bookingInput } from "@boothward/shared-types";
import { describe, expect, it } from "vitest";
import { bookingBody } from "../../../dashboard/web/parts/bookingBody.ts";

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
    const { standing } = bookingBody(written(fields), { horizon, units: "us" });
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
});
