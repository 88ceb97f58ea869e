import type { Judged } from "./alert.ts";
import { rules } from "./rules.ts";
import { isSilent, type Scene } from "./scene.ts";

/**
 * What each rule says of the booth now, in the order of the table. Of a booth that is silent, or was never
 * heard, only the silence can be judged: its other alerts stay as they are.
 */
export function judge(scene: Scene): readonly Judged[] {
  const isHeard = scene.heardAtMs !== null && !isSilent(scene);
  return rules.map(({ matter, judge: judgeOne }) =>
    isHeard || matter === "agentSilent" ? judgeOne(scene) : { matter, stands: "unseen" },
  );
}
