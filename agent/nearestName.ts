/** A name further off than this share of its own length is no slip of the fingers. */
const nearShare = 0.4;

/** The known name that is most like the given one, or null if none is near. */
export function nearestName(name: string, known: readonly string[]): string | null {
  const ranked = known
    .map((candidate) => ({ candidate, steps: stepsBetween(name.toLowerCase(), candidate.toLowerCase()) }))
    .sort((a, b) => a.steps - b.steps);
  const [best] = ranked;
  return best && best.steps <= Math.ceil(nearShare * best.candidate.length) ? best.candidate : null;
}

/**
 * Fewest single letters to put in, take out or replace to get from one word to the other.
 *
 * **Source:** V. I. Levenshtein, 1966, by the row-wise method of Wagner and Fischer, 1974 (from memory).
 */
export function stepsBetween(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, i) => i);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const replaced = (row[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(replaced, (row[j] ?? 0) + 1, (next[j - 1] ?? 0) + 1));
    }
    row = next;
  }
  return row[to.length] ?? 0;
}
