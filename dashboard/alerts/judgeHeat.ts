import type { HeatAhead } from "@boothward/shared-types";
import { hotSince, insideNow, isGoodAt, type InsideNow } from "../booth/insideNow.ts";
import { noFigures, type Judged, type Since } from "./alert.ts";
import { phaseOf, type Scene } from "./scene.ts";
import { neededChance } from "./trust.ts";

/** Under the limit by so much before the heat is over. */
const clearBandC = 1;

/**
 * Said beforehand from such a chance on that the limit is passed within the hour: early enough to put out shade.
 * Taken back only when it has become unlikely: with clouds the chance comes and goes, and who was told of one hot
 * afternoon need not be told three times. Chosen on simulated afternoons.
 */
export const alertChance = { from: 0.3, until: 0.05 };

/** While there is not enough data for a forecast: within so much of the limit while it rises. */
const nearLimitC = 2;

/** A rise slower than this in a quarter of an hour is a wobble. */
const leastRisePer15MinC = 0.3;

const quarterMs = 15 * 60_000;

/** What may come: whether it is said, is no longer enough to be said, or is over; and when the limit is passed. */
type Coming = {
  readonly stands: "holds" | "lingers" | "clear";
  readonly byAtMs: number | null;
  readonly crossChance60: number | null;
};

/** Whether the printer is too hot, or about to be. */
export function judgeHeat(scene: Scene): Judged {
  const { state, settings, atMs } = scene;
  const { limitC } = settings;
  const matter = "tooHot";
  const inside = insideNow(state);
  if (inside === null || !isGoodAt(inside, atMs)) return { matter, stands: "unseen" };
  const isAway = phaseOf(scene) === "away";
  const figures = { ...noFigures, matter, insideC: inside.insideC, limitC } as const;
  const since = sinceOf(state, limitC);
  if (inside.insideC >= limitC)
    return { ...figures, stands: "holds", severity: isAway ? "plan" : "actNow", since };
  const { stands, byAtMs, crossChance60 } = comingOf(scene, inside);
  if (!isAway && stands === "holds")
    return { ...figures, stands, severity: "plan", since: null, byAtMs, crossChance60 };
  if (inside.insideC <= limitC - clearBandC && (isAway || stands === "clear"))
    return { matter, stands: "clear" };
  return { ...figures, stands: "lingers", severity: "plan", since, byAtMs, crossChance60 };
}

function comingOf({ outlook, settings, trust }: Scene, inside: InsideNow): Coming {
  const ahead = outlook.heat.find(({ basis }) => basis === "enoughData");
  if (ahead === undefined) return byTrend(inside, settings.limitC);
  const { crossChance60 } = ahead;
  const from = neededChance(alertChance.from, "tooHot", trust);
  const until = neededChance(alertChance.until, "tooHot", trust);
  const stands = crossChance60 >= from ? "holds" : crossChance60 >= until ? "lingers" : "clear";
  return { stands, byAtMs: crossesAtMs(ahead, settings.limitC), crossChance60 };
}

/** When the middle course passes the limit; where it does not, the upper one: the moment by which to act. */
function crossesAtMs({ crossAtMs, fan }: HeatAhead, limitC: number): number | null {
  return crossAtMs ?? fan.find(({ p90 }) => p90 > limitC)?.atMs ?? fan.at(-1)?.atMs ?? null;
}

/** If it goes on as in the last quarter of an hour. */
function byTrend({ insideC, per15MinC, atMs }: InsideNow, limitC: number): Coming {
  if (per15MinC === null || per15MinC < leastRisePer15MinC || insideC < limitC - nearLimitC)
    return { stands: "clear", byAtMs: null, crossChance60: null };
  const byAtMs = atMs + ((limitC - insideC) / per15MinC) * quarterMs;
  return { stands: "holds", byAtMs, crossChance60: null };
}

/** The state remembers some hours: heat that fills them may have begun before. */
function sinceOf(state: Scene["state"], limitC: number): Since {
  const hot = hotSince(state, limitC, clearBandC);
  return hot === null ? null : { atMs: hot.atMs, isAtLatest: hot.isWholeTrail };
}
