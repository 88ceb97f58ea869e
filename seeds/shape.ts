/** A curve as points `[minute, height]`, joined by straight lines and level before the first and after the last. */
export type Shape = readonly (readonly [number, number])[];

/** Height of the curve at a minute. Throws when the curve has no point. */
export function heightAt(shape: Shape, atMin: number): number {
  const [first] = shape;
  if (first === undefined) throw new Error("a shape needs at least one point");
  let [fromMin, fromHeight] = first;
  if (atMin <= fromMin) return fromHeight;
  for (const [toMin, toHeight] of shape.slice(1)) {
    if (atMin < toMin) return fromHeight + ((toHeight - fromHeight) * (atMin - fromMin)) / (toMin - fromMin);
    [fromMin, fromHeight] = [toMin, toHeight];
  }
  return fromHeight;
}

/** The highest point of the curve. */
export function peakOf(shape: Shape): number {
  return Math.max(...shape.map(([, height]) => height));
}
