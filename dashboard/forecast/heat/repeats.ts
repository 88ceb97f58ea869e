/** How readings of a thermometer follow each other: what tells one that is stuck from a calm room. */
export type Repeats = {
  /** Equal readings after the last one that moved. */
  readonly inRow: number;
  /** Share of readings that repeat the one before; those far on in a row are left out. */
  readonly usualShare: number;
  /** Share of readings in rows that ended with a small move. */
  readonly calmShare: number;
  /** The last reading, C, null before it came; and how far it had moved. */
  readonly lastC: number | null;
  readonly lastMoveC: number;
  /** The smallest move so far, C: what the thermometer is read in. */
  readonly stepC: number;
  /** How far a reading lies from the line through the two before it, C, on average; of so many readings. */
  readonly bendC: number;
  readonly bends: number;
};

export const noRepeats: Repeats = {
  ...{ inRow: 0, usualShare: 0.5, calmShare: 0, lastC: null, lastMoveC: 0 },
  ...{ stepC: Infinity, bendC: 0, bends: 0 },
};

/** A reading's part in the usual share: some 50 make it. */
const usualPart = 0.02;
/** A reading's part in the calm share and in the mean bend: some ten make them. */
const recentPart = 0.1;
/** A row of so many repeats is no longer learned from, or a stuck thermometer would soon seem a coarse one. */
const longRow = 3;
/** A long row that ends with less than this was a calm room: a stuck thermometer comes back with a jump. */
const smallMoveC = 0.12;
/** A bend counts as no larger than this: one spike is not the usual. */
const largestBendC = 1;
/** Moves smaller than this are those of an average, not of a thermometer. */
const finestC = 0.001;

/** With one more reading. */
export function withRepeat(past: Repeats, insideC: number): Repeats {
  const { inRow, lastC } = past;
  if (lastC === null) return { ...past, lastC: insideC };
  const moveC = insideC - lastC;
  const next = { ...past, inRow: moveC === 0 ? inRow + 1 : 0, lastC: insideC, lastMoveC: moveC };
  return moveC === 0 && inRow >= longRow ? next : { ...next, ...learned(past, moveC) };
}

function learned({ inRow, usualShare, calmShare, lastMoveC, ...past }: Repeats, moveC: number) {
  const isSame = moveC === 0;
  const movedC = Math.abs(moveC);
  const wasCalm = inRow >= longRow && movedC < smallMoveC;
  const rowPart = 1 - (1 - recentPart) ** (wasCalm ? inRow : 1);
  const bendC = Math.min(largestBendC, Math.abs(moveC - lastMoveC));
  const bends = past.bends + 1;
  return {
    usualShare: towards(usualShare, isSame ? 1 : 0, usualPart),
    calmShare: isSame ? calmShare : towards(calmShare, wasCalm ? 1 : 0, rowPart),
    stepC: isSame ? past.stepC : Math.min(past.stepC, Math.max(finestC, movedC)),
    bendC: towards(past.bendC, bendC, Math.max(recentPart, 1 / bends)),
    bends,
  };
}

function towards(from: number, to: number, part: number): number {
  return from + part * (to - from);
}

/** A row of repeats as unlikely as this is no chance. */
const tooUnlikely = 1e-8;
/** One that repeats itself more often than this is coarse: its rows say something only if it trembles. */
const mostlyFresh = 0.6;

/** Whether a thermometer that usually moves has stopped to. */
export function isStuck(repeats: Repeats): boolean {
  const { inRow, usualShare, calmShare } = repeats;
  const moving = usualShare < mostlyFresh ? usualShare : 1;
  return Math.max(calmShare, Math.min(moving, noisyShare(repeats))) ** inRow < tooUnlikely;
}

/** So many bends before the noise is known. */
const leastBends = 8;
const leastShare = 0.05;

/**
 * Share of repeats at a steady temperature: of normal noise with spread s, read in steps, two readings are the same with
 * a chance of step / (2 s sqrt(pi)), and a bend's mean size is s sqrt(12 / pi).
 */
function noisyShare({ stepC, bendC, bends }: Repeats): number {
  if (bends < leastBends || bendC === 0) return 1;
  return Math.max(leastShare, Math.min(1, ((Math.sqrt(12) / (2 * Math.PI)) * stepC) / bendC));
}
