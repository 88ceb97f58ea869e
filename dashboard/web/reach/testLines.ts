import type { Delivery } from "../state/alertShapes.ts";
import { toldWords } from "../words/en/alerts.ts";
import { reach as words } from "../words/en/reach.ts";

/** What is said of a test so far; `deliveries` null: nothing was heard of it yet. */
export function testLines(
  deliveries: readonly Delivery[] | null,
  sentAtMs: number,
  isOver: boolean,
): string[] {
  if (deliveries === null) return [isOver ? words.gaveUp : words.testing];
  if (deliveries.length === 0 || deliveries.every(({ way }) => way === null)) return [words.noWay];
  const lines = deliveries.map((delivery) => lineOf(delivery, sentAtMs));
  const isWaited = deliveries.some(({ state, arrivedAtMs }) => state === "taken" && arrivedAtMs === null);
  return isOver && isWaited ? [...lines, words.gaveUp] : lines;
}

const onItsWay: ReadonlySet<string> = new Set(["due", "waiting", "gathered"]);

function lineOf({ way, label, state, lastSaid, arrivedAtMs }: Delivery, sentAtMs: number): string {
  const name = label ?? (way === null ? "" : toldWords.way[way]);
  if (arrivedAtMs !== null)
    return words.came(name, `${Math.max(0, Math.round((arrivedAtMs - sentAtMs) / 1000))} s`);
  if (state === "taken") return words.sent(name);
  if (onItsWay.has(state)) return words.waits(name);
  return words.failed(name, lastSaid ?? `${toldWords.state[state] ?? state}.`).trim();
}
