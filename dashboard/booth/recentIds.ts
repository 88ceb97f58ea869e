/**
 * The last thousand or so ids of one kind, to pass over what was counted already. In chunks, so that a
 * state shares all but the newest with the state before it.
 */
export type RecentIds = readonly (readonly string[])[];

const chunkSize = 64;

/** A print server may show its last 500 finished jobs again after a restart: remember twice as many. */
const chunksKept = 16;

/** What full chunks hold, made once each: a chunk never changes, and states must stay plain JSON. */
const heldBy = new WeakMap<readonly string[], ReadonlySet<string>>();

/** Whether this id was counted. */
export function isKnownId(ids: RecentIds, id: string): boolean {
  return ids.some((chunk) => (chunk.length < chunkSize ? chunk.includes(id) : setOf(chunk).has(id)));
}

/** The ids with one more; the oldest chunk is let go when there are too many. */
export function rememberId(ids: RecentIds, id: string): RecentIds {
  const last = ids.at(-1);
  if (last === undefined || last.length >= chunkSize) return [...ids.slice(1 - chunksKept), [id]];
  return [...ids.slice(0, -1), [...last, id]];
}

function setOf(chunk: readonly string[]): ReadonlySet<string> {
  const known = heldBy.get(chunk);
  if (known !== undefined) return known;
  const held = new Set(chunk);
  heldBy.set(chunk, held);
  return held;
}
