import type { CheckName, FaultWord, OpeningCheck } from "@boothward/shared-types";

/** A check as the booth finds it, before anybody's tick. */
export type Found = OpeningCheck;

type Figures = Readonly<Record<string, number | null>>;

/** Seen by the booth itself. */
export function seen(
  check: CheckName,
  atMs: number | null,
  figures: Figures = {},
  details: readonly string[] = [],
): Found {
  return { ...blank(check, figures, details), state: "seen", atMs };
}

export function toDo(check: CheckName, figures: Figures = {}, details: readonly string[] = []): Found {
  return { ...blank(check, figures, details), state: "toDo" };
}

/** Only a look at the booth settles it. */
export function question(check: CheckName, figures: Figures = {}): Found {
  return { ...blank(check, figures, []), state: "question" };
}

/** It cannot be seen at this booth now. */
export function notPossible(check: CheckName, fault: FaultWord): Found {
  return { ...blank(check, {}, []), state: "notPossible", fault };
}

function blank(check: CheckName, figures: Figures, details: readonly string[]) {
  const known = Object.entries(figures).filter((entry): entry is [string, number] => entry[1] !== null);
  return {
    ...{ check, fault: null, by: null, atMs: null },
    ...{ figures: Object.fromEntries(known), details: [...details] },
  };
}
