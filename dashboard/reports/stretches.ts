/** A stretch of time, from its first instant up to but not including its last. Lists are in order, without overlaps. */
export type Stretch = { readonly fromAtMs: number; readonly toAtMs: number };

/** Stretches in order, those that touch or overlap made one. */
export function mergeStretches(stretches: readonly Stretch[]): Stretch[] {
  const merged: Stretch[] = [];
  for (const { fromAtMs, toAtMs } of [...stretches].sort((a, b) => a.fromAtMs - b.fromAtMs)) {
    if (toAtMs <= fromAtMs) continue;
    const last = merged.at(-1);
    if (last === undefined || fromAtMs > last.toAtMs) merged.push({ fromAtMs, toAtMs });
    else merged[merged.length - 1] = { ...last, toAtMs: Math.max(last.toAtMs, toAtMs) };
  }
  return merged;
}

/** What of a stretch lies in another; nothing where they do not meet. */
export function clipStretch(stretch: Stretch, within: Stretch): Stretch[] {
  const fromAtMs = Math.max(stretch.fromAtMs, within.fromAtMs);
  const toAtMs = Math.min(stretch.toAtMs, within.toAtMs);
  return toAtMs > fromAtMs ? [{ fromAtMs, toAtMs }] : [];
}

/** What of a stretch is left when others are cut out of it. */
export function cutStretch(stretch: Stretch, cuts: readonly Stretch[]): Stretch[] {
  let rest: Stretch[] = [stretch];
  for (const cut of cuts) {
    rest = rest.flatMap((each) => [
      ...clipStretch(each, { fromAtMs: -Infinity, toAtMs: cut.fromAtMs }),
      ...clipStretch(each, { fromAtMs: cut.toAtMs, toAtMs: Infinity }),
    ]);
  }
  return rest;
}

export function lengthOf(stretches: readonly Stretch[]): number {
  return stretches.reduce((sum, { fromAtMs, toAtMs }) => sum + (toAtMs - fromAtMs), 0);
}
