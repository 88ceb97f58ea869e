import type { Booking, LoadItem, LoadLine, RollsToBring, Tick } from "@boothward/shared-types";

/** What the list is made from. */
export type LoadPlan = {
  readonly booking: Booking;
  readonly isTrailer: boolean;
  readonly rolls: Pick<RollsToBring, "bring">;
  /** The sun reaches the printer that day. */
  readonly hasSun: boolean;
};

/** Names a line of the list where it is ticked. */
export function loadCheck(item: LoadItem): string {
  return `load.${item}`;
}

/**
 * What goes into the van for a booking, in the order in which it is loaded: what each booth takes, and what this
 * plan asks for beside it. Common practice, no source.
 */
export function loadOut(plan: LoadPlan, ticks: ReadonlyMap<string, Tick>): LoadLine[] {
  return linesOf(plan).map(([item, count]) => {
    const check = loadCheck(item);
    return { item, check, count, tick: ticks.get(check) ?? null };
  });
}

type Line = readonly [item: LoadItem, count: number | null];

function linesOf({ booking, isTrailer, rolls, hasSun }: LoadPlan): Line[] {
  const inside = isTrailer ? [] : (["backdrop", "table"] as const);
  return [
    ...["booth", "camera", "screen", "printer", "printerCable"].map(
      (item) => [item as LoadItem, null] as const,
    ),
    ["rolls", rolls.bring],
    ...powerLines(booking),
    ...(
      ["network", "lights", ...inside, "greyCard", "cleaning", "spareCables", "tools", "tape"] as const
    ).map((item) => [item, null] as const),
    ...(isTrailer ? ([["levelling", null]] as const) : []),
    ...(hasSun ? ([["awning", null]] as const) : []),
    ...(isTrailer || hasSun ? ([["weights", null]] as const) : []),
    ["doorSign", 1],
    ["firstAid", null],
  ];
}

/** Cords, and where the current is brought along, what brings it. */
function powerLines({ power }: Booking): Line[] {
  const source = power?.source ?? "mains";
  const own: Line[] = [];
  if (source === "generator") own.push(["generator", 1], ["extinguisher", 1]);
  if (source === "battery") own.push(["battery", null]);
  const hasCord = power === null || power.cord !== null;
  return [...own, ...(hasCord ? ([["cord", null]] as const) : []), ["powerStrip", 1], ["cordCovers", null]];
}
