import { usesBetween, type Bin, type Use } from "../booth/bins.ts";
import type { BoothState } from "../booth/boothState.ts";

/**
 * The bins with pieces in guests' hands in the place of the pitches that count; null: nothing tells of pieces.
 *
 * A job says how many pieces it came to. Where a printer's counter counts the paper, the jobs of its queue (or,
 * without any, the layouts) tell of the pieces.
 */
export function binsInPieces({ bins }: Pick<BoothState, "bins">): readonly Bin[] | null {
  const uses = usesBetween(bins, -Infinity, Infinity);
  const byCounter = new Set(uses.filter(isCounter).map(({ queue }) => queue));
  const withJobs = new Set(uses.filter(({ basis }) => basis === "jobs").map(({ queue }) => queue));
  const isTelling = (use: Use): boolean => {
    if (use.copies === null) return false;
    if (use.counted > 0) return true;
    if (use.basis === "jobs") return byCounter.has(use.queue);
    return byCounter.size > 0 && withJobs.size === 0 && use.basis === bestOfProgram(uses);
  };
  const isUnknown = uses.some(isCounter) && !uses.some(isTelling);
  if (isUnknown) return null;
  return bins.map((bin) => ({
    ...bin,
    uses: bin.uses.map((use) => ({ ...use, counted: isTelling(use) ? piecesOf(use) : 0 })),
  }));
}

function isCounter({ basis, counted }: Use): boolean {
  return basis === "counter" && counted > 0;
}

function bestOfProgram(uses: readonly Use[]): Use["basis"] {
  return uses.some(({ basis }) => basis === "layouts") ? "layouts" : "hook";
}

/** Of a job of which a part was counted by another source already, as large a part of its pieces. */
function piecesOf({ copies, counted, pitches }: Use): number {
  if (copies === null) return 0;
  return counted > 0 && pitches > 0 ? (copies * counted) / pitches : copies;
}
