import type { ReplayView } from "@boothward/shared-types/replayView";

/** What the whole evening would use, as it was forecast at each moment: used so far and the rest, 80 % band. */
export function totalsOf(view: ReplayView): { atMs: number; p10: number; p50: number; p90: number }[] {
  return view.asks.flatMap(({ atMs, demandToEnd, usedToEnd }) => {
    if (demandToEnd === null) return [];
    const soFar = view.sheetsUsed - usedToEnd;
    const { p10, p50, p90 } = demandToEnd;
    return [{ atMs, p10: soFar + p10, p50: soFar + p50, p90: soFar + p90 }];
  });
}
