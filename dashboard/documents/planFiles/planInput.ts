import { noStanding, type Booking } from "@boothward/shared-types";

/** What a new entry has where a file says nothing, as an empty form would send it. */
const asNew = {
  ...{ place: "", latitudeDeg: null, longitudeDeg: null, guests: null, sheetsLoaded: null },
  ...{ spareRolls: 1, attendant: null },
};

const noPower = { source: null, volts: null, breakerA: null, loads: [], batteryWh: null };

/** A booking's form as it is before it is checked: what the file says by path, over what was there before. */
export function planInput(
  fields: Readonly<Record<string, unknown>>,
  before: Booking | null,
  boothId: string,
): Record<string, unknown> {
  const plain = Object.entries(fields).filter(([path]) => !path.includes("."));
  const power: Record<string, unknown> = {
    ...noPower,
    ...before?.power,
    ...under("power", fields),
    cord: cordOf({ ...before?.power?.cord, ...under("power.cord", fields) }),
  };
  return {
    ...{ ...asNew, ...before, ...Object.fromEntries(plain), boothId },
    standing: { ...(before?.standing ?? noStanding), ...under("standing", fields) },
    power: Object.values(power).every(isNothing) ? null : power,
  };
}

/** The fields right below a path, by their last names. */
function under(path: string, fields: Readonly<Record<string, unknown>>): Record<string, unknown> {
  return Object.fromEntries(
    Object.entries(fields).flatMap(([name, said]) => {
      const last = name.startsWith(`${path}.`) ? name.slice(path.length + 1) : "";
      return last === "" || last.includes(".") ? [] : [[last, said]];
    }),
  );
}

function cordOf(cord: Record<string, unknown>): Record<string, unknown> | null {
  return Object.values(cord).every(isNothing) ? null : cord;
}

function isNothing(said: unknown): boolean {
  return said === null || (Array.isArray(said) && said.length === 0);
}
