/** Part rolls at one place; `missing` are those that left it though none was known to be there. */
export type PartRolls = { readonly partials: readonly number[]; readonly missing: readonly number[] };

/**
 * A part roll is the same one when its count is within so many sheets: a twentieth of the usual roll of 400, as
 * with rolls that are put on again. Our own choice.
 */
const sameRollSheets = 20;

/** The part rolls with one more; it may be one that was missing. */
export function putPartial({ partials, missing }: PartRolls, sheets: number): PartRolls {
  const at = nearest(missing, sheets);
  if (at >= 0) return { partials, missing: without(missing, at) };
  return { partials: sorted([...partials, sheets]), missing };
}

/** The part rolls with one fewer: the one that is most like it, or one more is missing. */
export function takePartial({ partials, missing }: PartRolls, sheets: number): PartRolls {
  const at = nearest(partials, sheets);
  if (at >= 0) return { partials: without(partials, at), missing };
  return { partials, missing: sorted([...missing, sheets]) };
}

function nearest(rolls: readonly number[], sheets: number): number {
  let found = -1;
  let off = sameRollSheets;
  rolls.forEach((each, at) => {
    if (Math.abs(each - sheets) > off) return;
    found = at;
    off = Math.abs(each - sheets);
  });
  return found;
}

function without(rolls: readonly number[], at: number): readonly number[] {
  return rolls.filter((_, place) => place !== at);
}

function sorted(rolls: readonly number[]): readonly number[] {
  return [...rolls].sort((a, b) => b - a);
}
