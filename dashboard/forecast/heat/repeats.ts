/** How often the thermometer repeats itself: `inRow` equal readings after one another, `usualShare` of all readings. */
export type Repeats = { readonly inRow: number; readonly usualShare: number };

export const noRepeats: Repeats = { inRow: 0, usualShare: 0.5 };

/** A reading's part in the usual share, so that some 50 readings make it. */
const part = 0.02;
/** A row of repeats as unlikely as this is no chance; a calm room read in tenths repeats itself for hours. */
const tooUnlikely = 1e-8;
/** A thermometer that often repeats itself is coarse, and a long row says nothing of it. */
const mostlyFresh = 0.6;

export function withRepeat({ inRow, usualShare }: Repeats, isSame: boolean): Repeats {
  // A long row is no longer learned from, or a stuck thermometer would soon seem a coarse one.
  const learns = !isSame || inRow < 3;
  return {
    inRow: isSame ? inRow + 1 : 0,
    usualShare: learns ? usualShare + part * ((isSame ? 1 : 0) - usualShare) : usualShare,
  };
}

/** Whether a thermometer that usually moves has stopped to. */
export function isStuck({ inRow, usualShare }: Repeats): boolean {
  return usualShare < mostlyFresh && usualShare ** inRow < tooUnlikely;
}
