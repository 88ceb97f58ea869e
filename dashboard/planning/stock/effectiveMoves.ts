import type { StockMove } from "@boothward/shared-types/stock";
import { takenBackNames } from "../../booth/takenBack.ts";

/** Ids of the moves that were taken back; a taking that is itself taken back takes nothing. */
export function takenBackMoves(moves: readonly StockMove[]): ReadonlySet<string> {
  const takings = moves.flatMap(({ moveId, takes }) =>
    takes === null ? [] : [{ name: nameOf(moveId), takes: nameOf(takes) }],
  );
  const names = takenBackNames(takings);
  return new Set(moves.map(({ moveId }) => moveId).filter((moveId) => names.has(`0 ${moveId}`)));
}

/** The moves that count, in the order in which they happened. */
export function effectiveMoves(moves: readonly StockMove[]): readonly StockMove[] {
  const taken = takenBackMoves(moves);
  return moves
    .filter(({ moveId, takes }) => takes === null && !taken.has(moveId))
    .sort((a, b) => compareMoves(a, b));
}

/** Order of happening; what happened in one instant stays in the order of its saying. */
export function compareMoves(a: StockMove, b: StockMove): number {
  return a.atMs - b.atMs || a.saidAtMs - b.saidAtMs || (a.moveId < b.moveId ? -1 : 1);
}

/** Moves have one id where facts have a boot and a number. */
function nameOf(moveId: string) {
  return { bootId: moveId, seq: 0 };
}
