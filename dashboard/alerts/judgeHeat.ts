import { hotSince, insideNow, type InsideNow } from "../booth/insideNow.ts";
import { noFigures, type Judged, type Since } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";

/** Under the limit by so much before the heat is over. */
const clearBandC = 1;

/** Said beforehand within so much of the limit while it rises. */
const nearLimitC = 2;

/** A rise slower than this in a quarter of an hour is a wobble. */
const leastRisePer15MinC = 0.3;

/** An older reading says nothing of now. */
const goodMs = 10 * 60_000;

const quarterMs = 15 * 60_000;

/** Whether the printer is too hot, or about to be. */
export function judgeHeat(scene: Scene): Judged {
  const { state, settings, atMs } = scene;
  const { limitC } = settings;
  const matter = "tooHot";
  const inside = insideNow(state);
  if (inside === null || atMs - inside.atMs > goodMs) return { matter, stands: "unseen" };
  const isAway = phaseOf(scene) === "away";
  const figures = { ...noFigures, matter, insideC: inside.insideC, limitC } as const;
  const since = sinceOf(state, limitC);
  if (inside.insideC >= limitC) {
    return { ...figures, stands: "holds", severity: isAway ? "plan" : "actNow", since };
  }
  if (!isAway && isNearing(inside, limitC)) {
    const byAtMs = crossesAtMs(inside, limitC);
    return { ...figures, stands: "holds", severity: "plan", since: null, byAtMs };
  }
  if (inside.insideC <= limitC - clearBandC) return { matter, stands: "clear" };
  return { ...figures, stands: "lingers", severity: "plan", since };
}

/** The state remembers an hour: heat that fills it may have begun before. */
function sinceOf(state: Scene["state"], limitC: number): Since {
  const hot = hotSince(state, limitC, clearBandC);
  return hot === null ? null : { atMs: hot.atMs, isAtLatest: hot.isWholeTrail };
}

function isNearing({ insideC, per15MinC }: InsideNow, limitC: number): boolean {
  return insideC >= limitC - nearLimitC && per15MinC !== null && per15MinC >= leastRisePer15MinC;
}

/** When it reaches the limit if it goes on as in the last quarter of an hour. */
function crossesAtMs({ insideC, per15MinC, atMs }: InsideNow, limitC: number): number | null {
  if (per15MinC === null || per15MinC <= 0) return null;
  return atMs + ((limitC - insideC) / per15MinC) * quarterMs;
}
