import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

/** An hour before the opening it is time to try what will be needed; earlier they unload. Our own choice. */
const tryMs = 60 * 60_000;

/**
 * Whether the opening comes near and no test alert has arrived on the phone of the person who would be called: the
 * attendant's where the booth has one that can be told, else the owner's.
 */
export function judgeTest(scene: Scene): Judged {
  const { booking, state, atMs, reach } = scene;
  const matter = "testNotReceived";
  if (booking === null || phaseOf(scene) !== "near" || atMs < booking.openAtMs - tryMs)
    return { matter, stands: "clear" };
  // Nobody to try it with: that is said by itself.
  if (!reach.hasAttendant && !reach.hasOwner) return { matter, stands: "clear" };
  const role = reach.hasAttendant ? "attendant" : "owner";
  const isHeard = state.prepared.testsHeard.some(
    (test) => test.role === role && test.atMs >= booking.fromAtMs && test.atMs <= atMs,
  );
  if (isHeard) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "plan", since: null, byAtMs: booking.openAtMs },
  };
}

/** Whether nobody at the booth can be told of its alerts. An owner who works alone is there. */
export function judgeAttendant(scene: Scene): Judged {
  const { booking, reach } = scene;
  const matter = "attendantUnreached";
  const phase = phaseOf(scene);
  if (booking === null || phase === "away") return { matter, stands: "clear" };
  const isAlone = booking.attendant === null && reach.hasOwner;
  if (reach.hasAttendant || isAlone) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", severity: "plan", since: null },
    byAtMs: phase === "near" ? booking.openAtMs : null,
  };
}
