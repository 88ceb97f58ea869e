import type { Judged } from "./alert.ts";
import { rules } from "./rules.ts";
import { hearingOf, type Scene } from "./scene.ts";

/**
 * What each rule says of the booth now, in the order of the table. Of a booth that is not heard only the
 * silence can be judged: its other alerts stay as they are.
 */
export function judge(scene: Scene): readonly Judged[] {
  const isHeard = hearingOf(scene) === "heard";
  return rules.map(({ matter, judge: judgeOne }) =>
    isHeard || matter === "agentSilent" ? judgeOne(scene) : { matter, stands: "unseen" },
  );
}
