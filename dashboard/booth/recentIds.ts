/**
 * The last thousand or so ids of one kind, to pass over what was counted already. In chunks, so that a
 * state shares all but the newest with the state before it.
 */
export type RecentIds = readonly (readonly string[])[];

const chunkSize = 64;

/** A print server may show its last 500 finished jobs again after a restart: remember twice as many. */
const chunksKept = 16;

/** Whether this id was counted. */
export function isKnownId(ids: RecentIds, id: string): boolean {
  return ids.some((chunk) => chunk.includes(id));
}

/** The ids with one more; the oldest chunk is let go when there are too many. */
export function rememberId(ids: RecentIds, id: string): RecentIds {
  const last = ids.at(-1);
  if (last === undefined || last.length >= chunkSize) return [...ids.slice(1 - chunksKept), [id]];
  return [...ids.slice(0, -1), [...last, id]];
}
