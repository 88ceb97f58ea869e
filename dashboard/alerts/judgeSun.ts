import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

/** Said so long before: time to put out an awning or to move a printer. Our own choice. */
const aheadMs = 30 * 60_000;

/** Less sun than this warms no printer worth a message. */
const leastMs = 5 * 60_000;

/** Whether the sun is about to reach the printer while guests are there; that it is there, the temperature says. */
export function judgeSun(scene: Scene): Judged {
  const { outlook, booking, atMs } = scene;
  const matter = "sunComing";
  if (outlook.sun === null || booking === null) return { matter, stands: "unseen" };
  const next = outlook.sun.find(({ fromAtMs, toAtMs }) => toAtMs > atMs && toAtMs - fromAtMs >= leastMs);
  const isExpected = phaseOf(scene) !== "away" && next !== undefined && next.fromAtMs < booking.closeAtMs;
  if (!isExpected || next.fromAtMs <= atMs || next.fromAtMs - atMs > aheadMs)
    return { matter, stands: "clear" };
  const figures = { ...noFigures, byAtMs: next.fromAtMs, untilAtMs: next.toAtMs };
  return { ...figures, matter, stands: "holds", severity: "plan", since: null };
}
