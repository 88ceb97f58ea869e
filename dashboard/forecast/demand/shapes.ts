/**
 * How an evening's sessions are spread over its length, as heights at evenly spaced places from the opening to
 * the close. Only the proportions count.
 */
export type Shape = readonly number[];

/** Common practice, no source: what a level evening looks like but for its first and last minutes. */
export const flatShape: Shape = [0.85, 1, 1, 1, 1, 1, 1, 1, 1, 1, 0.95];

/**
 * Starting shapes of the kinds of event, until earlier evenings have taught better ones. Common practice, no
 * source.
 *
 * wedding: middling at the drinks, dead through dinner, strongest soon after the dancing starts, easing off.
 * corporate: slow first minutes, its peak in the first third, then falling steadily. party: builds through the
 * first half, peaks past the middle, tails off. public: nearly flat with the day's crowd. gala: a peak at
 * arrival, quiet through dinner and speeches, a second peak after.
 */
export const startingShapes: Readonly<Record<string, Shape>> = {
  wedding: [
    0.6, 0.85, 0.9, 0.8, 0.45, 0.25, 0.22, 0.25, 0.45, 0.95, 1.5, 1.75, 1.7, 1.55, 1.4, 1.25, 1.1, 1, 0.9,
    0.8, 0.65,
  ],
  corporate: [
    0.45, 0.8, 1.15, 1.45, 1.6, 1.65, 1.6, 1.5, 1.38, 1.26, 1.14, 1.03, 0.93, 0.84, 0.76, 0.68, 0.6, 0.53,
    0.46, 0.4, 0.33,
  ],
  party: [
    0.3, 0.4, 0.5, 0.6, 0.72, 0.84, 0.97, 1.1, 1.23, 1.35, 1.45, 1.52, 1.55, 1.52, 1.45, 1.33, 1.18, 1, 0.82,
    0.65, 0.5,
  ],
  public: [
    0.7, 0.85, 0.95, 1, 1.04, 1.07, 1.09, 1.1, 1.11, 1.11, 1.11, 1.11, 1.1, 1.09, 1.07, 1.05, 1.02, 0.98,
    0.93, 0.86, 0.75,
  ],
  gala: [
    1.1, 1.45, 1.5, 1.25, 0.8, 0.45, 0.3, 0.27, 0.27, 0.3, 0.4, 0.6, 0.95, 1.3, 1.5, 1.5, 1.35, 1.15, 0.95,
    0.75, 0.6,
  ],
};

const cells = 240;

/** Share of the evening's sessions up to each of evenly spaced places, 0 at the first and 1 at the last. */
export function sharesUpTo(shape: Shape): Float64Array {
  const upTo = new Float64Array(cells + 1);
  for (let cell = 0; cell < cells; cell += 1)
    upTo[cell + 1] = upTo[cell]! + Math.max(0, heightAt(shape, (cell + 0.5) / cells));
  const total = upTo[cells]!;
  return upTo.map((sum, cell) => (total > 0 ? sum / total : cell / cells));
}

/** The share at any place from 0 to 1 of what `sharesUpTo` made. */
export function shareAt(upTo: Float64Array, place: number): number {
  const at = Math.min(1, Math.max(0, place)) * cells;
  const cell = Math.min(cells - 1, Math.floor(at));
  const low = upTo[cell]!;
  return low + (upTo[cell + 1]! - low) * (at - cell);
}

/** Height of a shape at a place from 0 to 1, straight lines between its points. */
export function heightAt(shape: Shape, place: number): number {
  const at = place * (shape.length - 1);
  const point = Math.max(0, Math.min(shape.length - 2, Math.floor(at)));
  const low = shape[point] ?? 1;
  const high = shape[point + 1] ?? low;
  return low + (high - low) * (at - point);
}
