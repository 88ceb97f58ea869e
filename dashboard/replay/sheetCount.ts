/** Sheets left on the roll at any instant, from what was loaded, used, fitted and corrected. */
export type SheetCount = {
  readonly use: (atMs: number, sheets: number) => void;
  /** From this instant on so many are left: a new roll, or what a person counted. */
  readonly set: (atMs: number, sheetsLeft: number) => void;
  /** What was used or fitted at the instant itself counts. Under 0 when more was used than there can have been. */
  readonly leftAt: (atMs: number) => number;
};

type Change =
  { readonly atMs: number; readonly used: number } | { readonly atMs: number; readonly left: number };

/** Changes are kept in the order of time, those of one instant in the order in which they came. */
export function openSheetCount(loaded: number): SheetCount {
  const changes: Change[] = [];
  const insert = (change: Change): void => {
    let place = changes.length;
    while (place > 0 && changes[place - 1]!.atMs > change.atMs) place -= 1;
    changes.splice(place, 0, change);
  };
  return {
    use: (atMs, sheets) => insert({ atMs, used: sheets }),
    set: (atMs, sheetsLeft) => insert({ atMs, left: sheetsLeft }),
    leftAt: (atMs) => {
      let left = loaded;
      for (const change of changes) {
        if (change.atMs > atMs) break;
        left = "left" in change ? change.left : left - change.used;
      }
      return left;
    },
  };
}
