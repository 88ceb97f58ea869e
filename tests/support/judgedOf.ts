import type { Matter } from "@boothward/shared-types";
import type { Judged } from "../../dashboard/alerts/alert.ts";
import { judge } from "../../dashboard/alerts/judge.ts";
import type { Scene } from "../../dashboard/alerts/scene.ts";

/** What the rule of one matter says of a scene. */
export function judgedOf(matter: Matter, scene: Scene): Judged {
  const judged = judge(scene).find((each) => each.matter === matter);
  if (judged === undefined) throw new Error(`${matter} was not judged`);
  return judged;
}
