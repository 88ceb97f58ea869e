/** The horizons that are answered, min. */
export const horizonsMin = [15, 30, 60] as const;

/** A forecast that waits for its reading: `fromC` is what the bank took the air for when it was made. */
export type Said = {
  readonly dueAtMs: number;
  readonly horizon: number;
  readonly fromC: number;
  readonly meanC: number;
  readonly sdC: number;
};

/** Of one horizon: sums over past forecasts, faded. `squares` of errors in their own sd; `moves` said, and with what came. */
export type HorizonErrors = {
  readonly count: number;
  readonly squares: number;
  readonly saidSaid: number;
  readonly saidCame: number;
};

export type OwnErrors = { readonly waiting: readonly Said[]; readonly each: readonly HorizonErrors[] };

const none: HorizonErrors = { count: 0, squares: 0, saidSaid: 0, saidCame: 0 };
export const noErrors: OwnErrors = { waiting: [], each: horizonsMin.map(() => none) };

/** What counts beforehand: as if so many errors had been just as large as said. */
const pseudoCount = 80;
/** The same for how much of a move that was said comes. */
const pseudoMoves = 25;
/** A past error's weight when the next comes: about a day of forecasts each five minutes. */
const fade = 0.996;
/** An error counts as no further than this, in sd: one open door is not the usual. */
const farthest = 3;
/** Two readings further apart than this tell nothing of an instant between them. */
const bridgeMs = 16 * 60_000;

type Point = { readonly atMs: number; readonly insideC: number };

/** The errors with those forecasts that fell due between two readings. */
export function withReadingSeen(errors: OwnErrors, before: Point, now: Point): OwnErrors {
  const due = errors.waiting.filter(({ dueAtMs }) => dueAtMs <= now.atMs);
  if (due.length === 0) return errors;
  const each = [...errors.each];
  if (now.atMs - before.atMs <= bridgeMs)
    for (const said of due) {
      const share = (said.dueAtMs - before.atMs) / (now.atMs - before.atMs);
      const cameC = before.insideC + share * (now.insideC - before.insideC);
      each[said.horizon] = withError(each[said.horizon] ?? none, said, cameC);
    }
  return { each, waiting: errors.waiting.filter(({ dueAtMs }) => dueAtMs > now.atMs) };
}

function withError(past: HorizonErrors, { fromC, meanC, sdC }: Said, cameC: number): HorizonErrors {
  const error = Math.max(-farthest, Math.min(farthest, (cameC - meanC) / sdC));
  const said = (meanC - fromC) / sdC;
  const came = said + error;
  return {
    count: fade * past.count + 1,
    squares: fade * past.squares + error * error,
    saidSaid: fade * past.saidSaid + said * said,
    saidCame: fade * past.saidCame + said * came,
  };
}

/** How the bank's word is to be taken at a lead: times its spread, times its move from the last reading. */
export type Rescale = { readonly spread: number; readonly move: number };

export const asSaid: Rescale = { spread: 1, move: 1 };

/**
 * From past errors at the horizons around a lead, counted from the last reading. Beyond the last horizon, in a gap,
 * as there; but no further a move is believed than an hour's pace would make it.
 */
export function rescaleAt({ each }: OwnErrors, leadMin: number): Rescale {
  const scales = each.map(scaleOf);
  const after = horizonsMin.findIndex((minutes) => minutes >= leadMin);
  if (after === 0) return scales[0]!;
  const longestMin = horizonsMin[horizonsMin.length - 1]!;
  const last = scales[scales.length - 1]!;
  if (after === -1) return { ...last, move: (last.move * longestMin) / leadMin };
  const [from, to] = [horizonsMin[after - 1]!, horizonsMin[after]!];
  const share = (leadMin - from) / (to - from);
  const [low, high] = [scales[after - 1]!, scales[after]!];
  return {
    spread: low.spread + share * (high.spread - low.spread),
    move: low.move + share * (high.move - low.move),
  };
}

function scaleOf({ count, squares, saidSaid, saidCame }: HorizonErrors): Rescale {
  return {
    spread: Math.sqrt((pseudoCount + squares) / (pseudoCount + count)),
    move: Math.max(0, Math.min(1.2, (pseudoMoves + saidCame) / (pseudoMoves + saidSaid))),
  };
}
