/**
 * How long the work that waited while nothing was served still takes, `sinceMs` after a stop of `stopMs` ended:
 * a share `load` of the stop has gathered, and what is left of each moment after it works that off. It is gone
 * after stopMs load / (1 - load).
 *
 * **Source:** the fluid model of a queue; any textbook of queueing.
 */
export function backlogMs(stopMs: number, sinceMs: number, load: number): number {
  return Math.max(0, load * Math.max(0, stopMs) - (1 - load) * Math.max(0, sinceMs));
}
