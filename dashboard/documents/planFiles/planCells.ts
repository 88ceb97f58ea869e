import type { Booking } from "@boothward/shared-types";
import { readLocalTime, writeLocalTime } from "../tables/localTime.ts";
import type { Cell } from "../tables/writeTable.ts";
import {
  readBreaks,
  readHorizon,
  readLoads,
  writeBreaks,
  writeHorizon,
  writeLoads,
  type CellRead,
} from "./planLists.ts";

/** One field of a booking as it is written for people: in a column of a table, in a property of a calendar. */
export type PlanCell = {
  /** Where it is in the booking: "standing.headingDeg". */
  readonly path: string;
  readonly column: string;
  readonly write: (booking: Booking) => Cell;
  /** `zone`: the one that its times are read in. What fits no field stays as it is, to be refused by its column. */
  readonly read: (cell: string, zone: string) => CellRead;
};

/** The fields that a table has a column for and a calendar a property of our own. */
export const planCells: readonly PlanCell[] = [
  figure("guests", "guests", (b) => b.guests),
  figure("sheetsLoaded", "sheets loaded", (b) => b.sheetsLoaded),
  figure("spareRolls", "spare rolls", (b) => b.spareRolls, 1),
  text("attendant", "attendant", (b) => b.attendant),
  {
    ...{ path: "printSizes", column: "print sizes", write: (b) => b.printSizes.join(" ") },
    read: (cell) => ({ said: cell.split(/[\s,;]+/).filter((size) => size !== "") }),
  },
  figure("printsPerSession", "prints a session", (b) => b.printsPerSession),
  {
    ...{ path: "breaks", column: "breaks", write: (b) => writeBreaks(b.breaks, b.zone) },
    read: readBreaks,
  },
  {
    ...{ path: "promisedAtMs", column: "ready by" },
    write: (b) => (b.promisedAtMs === null ? null : writeLocalTime(b.promisedAtMs, b.zone)),
    read: (cell, zone) => {
      if (cell === "") return { said: null };
      const read = readLocalTime(cell, zone);
      return "sentence" in read ? read : { said: read.atMs };
    },
  },
  text("eventId", "event", (b) => b.eventId),
  figure("travelMin", "travel minutes", (b) => b.travelMin),
  figure("standing.headingDeg", "heading", (b) => b.standing.headingDeg),
  {
    ...{ path: "standing.horizon", column: "horizon", write: (b) => writeHorizon(b.standing.horizon) },
    read: readHorizon,
  },
  figure("standing.expectedHighC", "expected high C", (b) => b.standing.expectedHighC),
  text("power.source", "power from", (b) => b.power?.source ?? null),
  figure("power.volts", "volts", (b) => b.power?.volts ?? null),
  figure("power.breakerA", "breaker A", (b) => b.power?.breakerA ?? null),
  figure("power.cord.lengthM", "cord m", (b) => b.power?.cord?.lengthM ?? null),
  text("power.cord.size", "cord size", (b) => b.power?.cord?.size ?? null),
  {
    ...{ path: "power.loads", column: "loads", write: (b) => writeLoads(b.power?.loads ?? []) },
    read: readLoads,
  },
  figure("power.batteryWh", "battery Wh", (b) => b.power?.batteryWh ?? null),
];

/** The figure of a cell, null for an empty one; "1,5" too, as half of the world writes it. */
export function figureOf(cell: string): number | string | null {
  if (cell === "") return null;
  const read = Number(/^-?\d+,\d+$/.test(cell) ? cell.replace(",", ".") : cell);
  return Number.isNaN(read) ? cell : read;
}

function figure(
  path: string,
  column: string,
  write: (booking: Booking) => number | null,
  empty: number | null = null,
): PlanCell {
  return { path, column, write, read: (cell) => ({ said: figureOf(cell) ?? empty }) };
}

function text(path: string, column: string, write: (booking: Booking) => string | null): PlanCell {
  return { path, column, write, read: (cell) => ({ said: cell === "" ? null : cell }) };
}
