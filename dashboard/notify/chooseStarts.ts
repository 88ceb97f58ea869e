import type { Waiting } from "../store/deliveries.ts";

/**
 * How many sends may be under way at once: in all, of one person, on ways that failed last time. The last two stay
 * below the four threads that look names up: a name server that never answers holds one for seconds.
 */
export const sendLimits = { all: 32, person: 3, troubled: 2 };

/**
 * Which of those that wait to begin with now: one at a time on each way, ways that work first, and never so many of
 * one person or of failing ways that a slow or hostile address holds the others up.
 */
export function chooseStarts(
  waiting: readonly Waiting[],
  underWay: readonly Waiting[],
  limits: typeof sendLimits,
): Waiting[] {
  const busy = [...underWay];
  const chosen: Waiting[] = [];
  const inOrder = [...waiting].sort((a, b) => Number(a.isTroubled) - Number(b.isTroubled));
  for (const each of inOrder) {
    if (busy.length >= limits.all) break;
    if (busy.some(({ reachId }) => reachId === each.reachId)) continue;
    if (busy.filter(({ personId }) => personId === each.personId).length >= limits.person) continue;
    if (each.isTroubled && busy.filter(({ isTroubled }) => isTroubled).length >= limits.troubled) continue;
    busy.push(each);
    chosen.push(each);
  }
  return chosen;
}
