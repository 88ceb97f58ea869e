/**
 * A short list with one entry per key, in the order of the keys. A list, because the keys are names from
 * outside and plain objects treat some names specially; ordered, so that it does not matter which came first.
 */
export function withEntry<T>(list: readonly T[], keyOf: (entry: T) => string, entry: T): readonly T[] {
  const key = keyOf(entry);
  const at = list.findIndex((each) => keyOf(each) >= key);
  if (at < 0) return [...list, entry];
  const present = list[at];
  const isSame = present !== undefined && keyOf(present) === key;
  return [...list.slice(0, at), entry, ...list.slice(isSame ? at + 1 : at)];
}
