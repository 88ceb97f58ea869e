import { noFigures, type Judged } from "./alert.ts";
import { phaseOf, sparesLeft, type Scene } from "./scene.ts";

/** Whether there is something about the paper that only a person at the booth can tell. */
export function judgeDoubt(scene: Scene): Judged {
  const { media } = scene.shown;
  const matter = "countDoubtful";
  if (media === null) return { matter, stands: "unseen" };
  if (media.question === null) return { matter, stands: "clear" };
  return {
    ...noFigures,
    ...{ matter, stands: "holds", question: media.question },
    severity: phaseOf(scene) === "away" ? "note" : "plan",
    since: { atMs: media.question.atMs, isAtLatest: false },
    ...{ sheetsLeft: media.sheetsLeft, spareRolls: sparesLeft(scene) },
  };
}

/** Whether two sources count so differently that the report will print both. */
export function judgeDifference({ shown }: Scene): Judged {
  const { difference } = shown.counts;
  const matter = "countsDiffer";
  if (difference === null) return { matter, stands: "clear" };
  const since = { atMs: difference.sinceAtMs, isAtLatest: false };
  return { ...noFigures, ...{ matter, stands: "holds", severity: "note", since, difference } };
}
