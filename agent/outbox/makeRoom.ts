import type { OutboxLimits } from "./limits.ts";
import type { Positions } from "./positions.ts";
import type { Segment } from "./segment.ts";
import type { Shelf } from "./shelf.ts";

/** Thinning goes down to this share of the limit, so that it is a rare, larger step and not one for each item. */
const roomyShare = 0.9;

/**
 * Takes away what need not be kept: acknowledged files past their time, then, while the outbox is over
 * its limit (or the disk is full), any acknowledged file, then the readings of the oldest files.
 *
 * @returns how many unsent readings were let go of, and whether even that was not enough.
 */
export async function makeRoom(options: {
  shelf: Shelf;
  positions: Positions;
  limits: OutboxLimits;
  nowMs: number;
  isDiskFull: boolean;
}): Promise<{ thinned: number; isFull: boolean }> {
  const { shelf, positions, limits, nowMs, isDiskFull } = options;
  const isOver = () => shelf.bytes > limits.maxBytes;
  const past = new Set(segmentsPastTime(shelf, positions, limits, nowMs));
  const done = shelf.doneWith(positions).filter((segment) => past.has(segment) || isOver() || isDiskFull);
  if (done.length === 0 && !isOver()) return { thinned: 0, isFull: false };
  // A mark must outlive the item that carried it.
  if (!(await positions.save(true))) return { thinned: 0, isFull: isOver() };
  for (const segment of done) if (past.has(segment) || isOver() || isDiskFull) await shelf.remove(segment);
  const thinned = isOver() ? await thinOldest(shelf, positions, limits.maxBytes * roomyShare) : 0;
  positions.keepOnly(new Set(shelf.boots()));
  return { thinned, isFull: isOver() };
}

/** Acknowledged segments older than their keeping time, or more than are kept at most, oldest first. */
function segmentsPastTime(
  shelf: Shelf,
  positions: Positions,
  limits: OutboxLimits,
  nowMs: number,
): Segment[] {
  const done = shelf.doneWith(positions);
  let keptBytes = done.reduce((sum, segment) => sum + segment.bytes, 0);
  return done.filter((segment) => {
    const next = shelf.segments[shelf.segments.indexOf(segment) + 1];
    const isOld = next !== undefined && nowMs - next.openedAtMs > limits.keepAckedMs;
    const isPast = isOld || keptBytes > limits.keepAckedBytes || segment.lastSeq === 0;
    if (isPast) keptBytes -= segment.bytes;
    return isPast;
  });
}

async function thinOldest(shelf: Shelf, positions: Positions, targetBytes: number): Promise<number> {
  let thinned = 0;
  for (const segment of [...shelf.segments]) {
    if (shelf.bytes <= targetBytes) break;
    if (segment.items !== null || segment.readings === 0) continue;
    thinned += await shelf.thin(segment, positions.ackedOf(segment.bootId));
  }
  return thinned;
}
