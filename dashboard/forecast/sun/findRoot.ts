/** A stretch of time, from and to an instant. */
export type Stretch = { readonly fromMs: number; readonly toMs: number };

/** An edge is found to this: far finer than any almanac. */
const edgeMs = 20;
const goldenShare = (Math.sqrt(5) - 1) / 2;

type Sample = { readonly atMs: number; readonly margin: number };

/** The instant between two at which a margin changes its sign; the signs at the two must differ. */
export function findRoot(margin: (atMs: number) => number, { fromMs, toMs }: Stretch): number {
  const isUp = margin(toMs) > 0;
  let [low, high] = [fromMs, toMs];
  while (high - low > edgeMs) {
    const middle = (low + high) / 2;
    if (margin(middle) > 0 === isUp) high = middle;
    else low = middle;
  }
  return (low + high) / 2;
}

/** Where within a bracket a margin is largest (golden section, to a second). */
export function findPeak(margin: (atMs: number) => number, { fromMs, toMs }: Stretch): number {
  let [low, high] = [fromMs, toMs];
  while (high - low > 1000) {
    const reach = (high - low) * goldenShare;
    if (margin(high - reach) > margin(low + reach)) high = low + reach;
    else low = high - reach;
  }
  return (low + high) / 2;
}

/**
 * The stretches of a window in which a continuous margin is above zero, edges found on the true instant.
 *
 * Looks every `stepMs`, and at every peak and dip between looks, so that a short stretch or gap is not stepped over.
 */
export function positiveStretches(
  margin: (atMs: number) => number,
  window: Stretch,
  stepMs: number,
): readonly Stretch[] {
  const looks = withTurns(margin, looksOver(margin, window, stepMs));
  const stretches: Stretch[] = [];
  let sinceMs: number | null = null;
  looks.forEach(({ atMs, margin: now }, index) => {
    const before = looks[index - 1];
    const isEdge = before !== undefined && before.margin > 0 !== now > 0;
    const edgeAtMs = isEdge ? findRoot(margin, { fromMs: before.atMs, toMs: atMs }) : atMs;
    if (now > 0) sinceMs ??= edgeAtMs;
    else if (sinceMs !== null) {
      stretches.push({ fromMs: sinceMs, toMs: edgeAtMs });
      sinceMs = null;
    }
  });
  if (sinceMs !== null && sinceMs < window.toMs) stretches.push({ fromMs: sinceMs, toMs: window.toMs });
  return stretches;
}

function looksOver(margin: (atMs: number) => number, { fromMs, toMs }: Stretch, stepMs: number): Sample[] {
  if (!(toMs > fromMs)) return [];
  const count = Math.ceil((toMs - fromMs) / stepMs);
  return Array.from({ length: count + 1 }, (_, step) => {
    const atMs = Math.min(fromMs + step * stepMs, toMs);
    return { atMs, margin: margin(atMs) };
  });
}

/** Adds the turning points that may reach over zero between two looks. */
function withTurns(margin: (atMs: number) => number, looks: readonly Sample[]): readonly Sample[] {
  return looks.flatMap((look, index) => {
    const [before, after] = [looks[index - 1], looks[index + 1]];
    if (before === undefined || after === undefined) return [look];
    const sign = look.margin > 0 ? -1 : 1;
    const isTurn = sign * look.margin >= sign * before.margin && sign * look.margin >= sign * after.margin;
    if (!isTurn) return [look];
    const bracket = { fromMs: before.atMs, toMs: after.atMs };
    const atMs = findPeak((each) => sign * margin(each), bracket);
    const turn = { atMs, margin: margin(atMs) };
    return atMs < look.atMs ? [turn, look] : [look, turn];
  });
}
