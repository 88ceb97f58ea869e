import type { BookingInput, PrintSize } from "@boothward/shared-types";

/**
 * Media that so many prints of a session take, in pitches: a 4x6 is one, two strips come from one, a 6x8 takes two
 * (common practice, no source).
 */
const pitches: Readonly<Record<PrintSize, (prints: number) => number>> = {
  "4x6": (prints) => prints,
  "2x6": (prints) => Math.ceil(prints / 2),
  "6x8": (prints) => 2 * prints,
};

/** Mean pitches a session as the plan says it; null: it does not, or its sizes do not agree on it. */
export function plannedSheets({
  printSizes,
  printsPerSession,
}: Pick<BookingInput, "printSizes" | "printsPerSession">): number | null {
  if (printsPerSession === null) return null;
  const each = new Set(printSizes.map((size) => pitches[size](printsPerSession)));
  const [only] = each;
  return each.size === 1 && only !== undefined ? only : null;
}
