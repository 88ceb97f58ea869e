import { compareSeverity, type Judged } from "./alert.ts";
import { rules, type Rule } from "./rules.ts";
import { hearingOf, type Scene } from "./scene.ts";

/**
 * What each rule says of the booth now, in the order of the table. Of a booth that is not heard only what needs no
 * word from it can be judged: its other alerts stay as they are. What is only foreseen is said no louder than it is
 * trusted.
 */
export function judge(scene: Scene): readonly Judged[] {
  const isHeard = hearingOf(scene) === "heard";
  return rules.map((rule) => {
    const { matter } = rule;
    if (!isHeard && rule.underSiteDark) return { matter, stands: "unseen" };
    return capped(rule.judge(scene), rule, scene);
  });
}

/** A forecast has no beginning yet; what has one was measured, and is said as it is. */
function capped(judged: Judged, { isForecast }: Rule, { trust }: Scene): Judged {
  if (!isForecast || judged.stands === "clear" || judged.stands === "unseen") return judged;
  const { forecastCap } = trust;
  if (judged.since !== null || compareSeverity(judged.severity, forecastCap) <= 0) return judged;
  return { ...judged, severity: forecastCap };
}
