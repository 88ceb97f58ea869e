import { setImmediate as everythingElse } from "node:timers/promises";

/** So many take a few milliseconds. */
const rowsATurn = 200;

/** Goes through the rows of a file; between two handfuls of them everything else goes first. */
export async function inTurns<Row>(rows: readonly Row[], take: (row: Row) => void): Promise<void> {
  for (let at = 0; at < rows.length; at += rowsATurn) {
    rows.slice(at, at + rowsATurn).forEach((row) => take(row));
    await everythingElse();
  }
}
